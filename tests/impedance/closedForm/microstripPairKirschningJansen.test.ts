import { describe, expect, it } from 'vitest'
import { microstripHammerstadJensen } from '../../../src/impedance/closedForm/microstripHammerstadJensen.ts'
import {
  evenMode,
  LIMITS,
  microstripPairKirschningJansen,
  oddMode,
} from '../../../src/impedance/closedForm/microstripPairKirschningJansen.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { tenfold } from '../../helpers/lineShapes.ts'
import { checkValues, fourConstants, microstripPair } from '../../helpers/pairShapes.ts'

/** By u = w/h, g = s/h and εr. */
function constants(u: number, g: number, er: number): number[] {
  return fourConstants(microstripPairKirschningJansen(microstripPair(100 * u, 100 * g, 100, 0, er)))
}

describe('microstripPairKirschningJansen', () => {
  it('has the check values of an independent implementation of the same equations', () => {
    const rows = [
      ...checkValues(
        '1, 1, 4.2',
        constants(1, 1, 4.2),
        [82.6242167322, 61.7392872017, 3.2430202843, 2.77588726556],
      ),
      ...checkValues(
        '0.5, 0.5, 3.5',
        constants(0.5, 0.5, 3.5),
        [132.485288347, 75.580788535, 2.64120311607, 2.29809694883],
      ),
      ...checkValues(
        '2, 0.3, 9.8',
        constants(2, 0.3, 9.8),
        [39.9615280882, 24.8026392207, 7.64262705459, 5.97722199019],
      ),
    ]
    expect(missedRows(rows)).toBe('')
  })

  it('has the values of a second implementation at the edges of its range', () => {
    const rows = [
      ...checkValues(
        '0.2, 0.15, 4.2',
        constants(0.2, 0.15, 4.2),
        [190.028567336, 67.8250373497, 2.93725398581, 2.61202722638],
      ),
      ...checkValues(
        '6, 0.12, 3',
        constants(6, 0.12, 3),
        [30.0911516667, 20.5335901943, 2.7218879601, 2.33500340653],
      ),
      ...checkValues(
        '0.15, 8, 12',
        constants(0.15, 8, 12),
        [88.8720710584, 88.1817937055, 7.26176491434, 7.19850852886],
      ),
      ...checkValues(
        '4, 5, 2.2',
        constants(4, 5, 2.2),
        [42.5849714884, 41.0374264456, 1.94123384945, 1.87780507467],
      ),
    ]
    expect(missedRows(rows)).toBe('')
  })

  it('has ten heights apart, where the range of the authors ends, as much coupling left as a numerical solution', () => {
    // Of the project's own field solution (boundary elements), strips of a thousandth of the height: by how much either
    // mode differs from the single line, impedance and permittivity. 0.7 %: stated by the authors for the impedances; of
    // the permittivities a boundary-element solution found 0.8 %. The single line counts as exact.
    const rows = (
      [
        [0.2, 0.003, 0.0043],
        [1, 0.0046, 0.0064],
        [5, 0.0069, 0.0092],
      ] as const
    ).flatMap(([u, ofImpedance, ofPermittivity]) => {
      const { impedance, effectivePermittivity } = microstripHammerstadJensen(
        microstripPair(100 * u, 1000, 100, 0, 4.2),
      )
      const [even = NaN, odd = NaN, evenPermittivity = NaN, oddPermittivity = NaN] = constants(u, 10, 4.2)
      return [
        within(0.007, `even ${u}`, even / impedance, 1 + ofImpedance),
        within(0.007, `odd ${u}`, odd / impedance, 1 - ofImpedance),
        within(0.008, `even permittivity ${u}`, evenPermittivity / effectivePermittivity, 1 + ofPermittivity),
        within(0.008, `odd permittivity ${u}`, oddPermittivity / effectivePermittivity, 1 - ofPermittivity),
      ]
    })
    expect(missedRows(rows)).toBe('')
  })

  it('keeps the single line between the two modes', () => {
    for (const u of [0.3, 1, 3])
      for (const g of [0.3, 1, 3]) {
        const single = microstripHammerstadJensen(microstripPair(100 * u, 100 * g, 100, 0, 4)).impedance
        const [even = NaN, odd = NaN] = constants(u, g, 4)
        expect(even).toBeGreaterThan(single)
        expect(odd).toBeLessThan(single)
      }
  })

  it('has permittivity 1 in air', () => {
    expect(evenMode(0.7, 0.4, 1).effectivePermittivity).toBe(1)
    expect(oddMode(0.7, 0.4, 1).effectivePermittivity).toBeCloseTo(1, 14)
  })

  it('knows no scale', () => {
    const pair = microstripPair(100, 80, 90, 0, 4.1)
    expect(microstripPairKirschningJansen(tenfold(pair)).odd.impedance).toBeCloseTo(
      microstripPairKirschningJansen(pair).odd.impedance,
      11,
    )
  })

  it('states the range of the paper', () => {
    expect(LIMITS).toEqual([
      { quantity: 'width/height', min: 0.1, max: 10 },
      { quantity: 'gap/height', min: 0.1, max: 10 },
      { quantity: 'relative permittivity', min: 1, max: 18 },
      { quantity: 'thickness/gap', min: 0, max: 0 },
    ])
  })

  it.each([
    ['no gap', microstripPair(100, 0, 100, 0, 4)],
    ['an endless gap', microstripPair(100, Infinity, 100, 0, 4)],
    ['no width', microstripPair(0, 100, 100, 0, 4)],
    ['NaN', microstripPair(100, NaN, 100, 0, 4)],
  ])('refuses %s', (_what, pair) => {
    expect(() => microstripPairKirschningJansen(pair)).toThrow(RangeError)
  })
})
