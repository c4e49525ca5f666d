import { describe, expect, it } from 'vitest'
import {
  chosenEstimate,
  chosenValue,
  closedFormNear,
  estimateLine,
  uncoupledPair,
  valueNear,
  verdictImpedance,
} from '../../src/impedance/estimateLine.ts'
import { SPEED_OF_LIGHT } from '../../src/units/constants.ts'
import { lineSection, TEST_FREQUENCY } from '../helpers/lineSection.ts'

const surface = lineSection({ width: 100e-6, thickness: 35e-6, below: [[100e-6, 4]] })
const pair = lineSection({ width: 100e-6, thickness: 35e-6, below: [[100e-6, 4]], gap: 100e-6 })

describe('estimateLine', () => {
  it('chooses the method that claims least and keeps the others in the order of their claims', () => {
    const { chosen, others } = estimateLine(surface, TEST_FREQUENCY)
    const claims = [chosen, ...others].map((estimate) => estimate.claimedError)
    expect(claims).toEqual([...claims].sort((a, b) => a - b))
    expect(others.length).toBeGreaterThan(3)
    expect([chosen, ...others].filter(({ method }) => method.kind === 'field solution')).toHaveLength(1)
    expect(chosenEstimate(surface, TEST_FREQUENCY)).toBe(chosen)
  })

  it('takes the best closed form alone for searches', () => {
    const { chosen, others } = estimateLine(surface, TEST_FREQUENCY)
    const quick = closedFormNear(surface, TEST_FREQUENCY)(surface)
    const [best] = [chosen, ...others].filter(({ method }) => method.kind === 'closed form')
    expect(best?.method.id).toBe('microstrip-hammerstad-jensen')
    expect(quick).toEqual(best?.modes)
  })

  it('says near a section what the chosen method says there, and not far from it beside', () => {
    for (const section of [surface, pair]) {
      const near = valueNear(section, TEST_FREQUENCY)
      const here = chosenValue(section, TEST_FREQUENCY)
      expect(near(section).impedance).toBeCloseTo(here.impedance, 10)
      expect(near(section).delay / here.delay).toBeCloseTo(1, 10)
      const { trace } = section
      const wider = {
        ...section,
        trace: { ...trace, width: 1.2 * trace.width, topWidth: 1.2 * trace.topWidth },
      }
      const there = chosenValue(wider, TEST_FREQUENCY)
      expect(Math.abs(near(wider).impedance / there.impedance - 1)).toBeLessThan(near(wider).band)
    }
  })

  it('finds each closed form inside its band of the field solution', () => {
    for (const section of [surface, pair]) {
      const { chosen, others } = estimateLine(section, TEST_FREQUENCY)
      const field = [chosen, ...others].find(({ method }) => method.kind === 'field solution')
      if (field === undefined) throw new Error('these sections have a field solution')
      const outside = [chosen, ...others].filter(
        ({ modes, claimedError }) =>
          Math.abs(verdictImpedance(modes) / verdictImpedance(field.modes) - 1) >
          claimedError + field.claimedError,
      )
      expect(outside.map(({ method }) => method.id)).toEqual([])
    }
  })

  it('leaves the closed forms alone where a section is beyond the field solution', () => {
    const extreme = lineSection({ width: 1e-12, thickness: 1e-14, below: [[1, 4]] })
    const { chosen } = estimateLine(extreme, TEST_FREQUENCY)
    expect(Number.isFinite(chosen.claimedError)).toBe(true)
  })

  it('gives constants that belong together: Z = √(L/C), delay = √(LC) = √εeff / c', () => {
    for (const section of [surface, pair]) {
      const line = estimateLine(section, TEST_FREQUENCY)
      expect(Math.sqrt(line.inductance / line.capacitance) / line.impedance).toBeCloseTo(1, 12)
      expect(Math.sqrt(line.inductance * line.capacitance) / line.delay).toBeCloseTo(1, 12)
      expect(Math.sqrt(line.effectivePermittivity) / SPEED_OF_LIGHT / line.delay).toBeCloseTo(1, 12)
    }
  })

  it('judges a pair by twice its odd mode and gives half its even mode as common', () => {
    const line = estimateLine(pair, TEST_FREQUENCY)
    const { modes } = line.chosen
    if (modes.kind !== 'pair') throw new Error('a pair has two modes')
    expect(line.impedance).toBe(2 * modes.odd.impedance)
    expect(line.common).toBe(modes.even.impedance / 2)
    // Independent numerical solution (boundary elements), ±0.05 %: Ze 77.981, Zo 52.261 ohm.
    expect(Math.abs(line.impedance / (2 * 52.261) - 1)).toBeLessThan(line.chosen.claimedError)
  })

  it('makes of two lone traces a pair of twice the impedance', () => {
    const single = estimateLine(surface, TEST_FREQUENCY)
    const apart = uncoupledPair(single)
    expect(apart.impedance).toBeCloseTo(2 * single.impedance, 12)
    expect(apart.common).toBeCloseTo(single.impedance / 2, 12)
    expect(apart.delay).toBe(single.delay)
    expect(apart.loss).toBe(single.loss)
  })

  it('tends to two lone traces as the gap of a pair opens', () => {
    // Coupling falls with the square of the gap over the height: 40 heights apart it is 0.05 %.
    const far = lineSection({ width: 100e-6, thickness: 35e-6, below: [[100e-6, 4]], gap: 4e-3 })
    const apart = uncoupledPair(estimateLine(surface, TEST_FREQUENCY))
    const pairLine = estimateLine(far, TEST_FREQUENCY)
    // Each may err by what it claims.
    const claims = apart.chosen.claimedError + pairLine.chosen.claimedError
    expect(Math.abs(pairLine.impedance / apart.impedance - 1)).toBeLessThan(claims)
  })

  it.each([0, -1, NaN])('refuses the frequency %f', (frequency) => {
    expect(() => estimateLine(surface, frequency)).toThrow(RangeError)
  })
})
