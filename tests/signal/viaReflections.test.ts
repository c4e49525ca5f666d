import { describe, expect, it } from 'vitest'
import type { Cascade, UniformLine, UniformSection } from '../../src/signal/cascade.ts'
import { reflectedPeak } from '../../src/signal/reflectedPeak.ts'
import { networkReferences, type NetworkReference } from '../helpers/viaReferences.ts'

type Element = NetworkReference['elements'][number]

/**
 * A lumped capacitance as an open line of one ohm: its inductance, 1 ohm² times the capacitance, does nothing here. A
 * stub with a capacitor at its end, which a cascade cannot say, as the one open line of the same capacitance and
 * inductance, which is how the pad at the end of a barrel is counted in.
 */
function hangingOf(element: Exclude<Element, { kind: 'line' }>): UniformLine {
  if (element.kind === 'shuntCapacitance') return { impedance: 1, delay: element.capacitance }
  const inductance = element.impedance * element.delay
  const capacitance = element.delay / element.impedance + element.endCapacitance
  return { impedance: Math.sqrt(inductance / capacitance), delay: Math.sqrt(inductance * capacitance) }
}

function cascadeOf({ lineImpedance, elements, terminationResistance }: NetworkReference): Cascade {
  const sections = elements.map((element): UniformSection =>
    element.kind === 'line'
      ? { impedance: element.impedance, delay: element.delay }
      : { impedance: lineImpedance, delay: 0, hanging: hangingOf(element) },
  )
  return { before: lineImpedance, sections, after: terminationResistance }
}

const isExact = ({ elements }: NetworkReference): boolean =>
  elements.every((element) => element.kind !== 'shuntStub' || element.endCapacitance === 0)

/** Distance to the reference; where both signs are within 3 % of one another, to the nearer. */
function missOf(row: NetworkReference, shape: 'gaussian' | 'linear'): number {
  const { peak, opposite, bound } = shape === 'gaussian' ? row.gaussian : row.ramp
  const found = reflectedPeak(cascadeOf(row), { riseTime: row.riseTime, shape })
  const isTied = Math.abs(opposite) > 0.97 * Math.abs(peak)
  return Math.min(Math.abs(found - peak), isTied ? Math.abs(found - opposite) : Infinity) - bound
}

/** A capacitance in front of a device sends back all of the step, and what the device would have besides. */
function largestEcho({ lineImpedance, terminationResistance: device }: NetworkReference): number {
  return 1 + Math.max(0, (device - lineImpedance) / (device + lineImpedance))
}

// reference/via/edgeReflections.json: travelling waves in time, without a spectrum.
describe('the reflected peak of necks with vias', () => {
  const rows = networkReferences()
  const exact = rows.filter(isExact)
  const simplified = rows.filter((row) => !isExact(row))

  it.each(exact)('of a Gaussian edge is that of travelling waves to 1e-4 of the edge: $name', (row) => {
    expect(missOf(row, 'gaussian')).toBeLessThan(1e-4)
  })

  it.each(exact)('of a ramp is that of travelling waves to 3e-3 of the largest echo: $name', (row) => {
    expect(missOf(row, 'linear')).toBeLessThan(3e-3 * largestEcho(row))
  })

  it('is compared on enough networks of either kind', () => {
    expect([exact.length, simplified.length]).toEqual([28, 43])
  })

  /**
   * What the one open line costs, measured, in shares of the edge: 0.023 at 20 ps (a pair's stub of 10 ps, 7 % of its
   * peak), 0.015 at 25 ps, and from 35 ps on 0.0037 of Gaussian edges and 0.0073 of ramps.
   */
  const cost = { gaussian: [0.0235, 0.004], linear: [0.021, 0.0075] } as const

  it.each(simplified)('with a pad at the end of a stub is near as one open line: $name', (row) => {
    for (const shape of ['gaussian', 'linear'] as const) {
      const [fast, slow] = cost[shape]
      expect(missOf(row, shape)).toBeLessThan(row.riseTime < 34e-12 ? fast : slow)
    }
  })

  it('with a pad at the end of a stub misses 1 % of the peak or less at 100 ps and slower', () => {
    const slow = simplified.filter(({ riseTime }) => riseTime >= 100e-12)
    expect(slow.length).toBeGreaterThan(10)
    for (const row of slow) {
      expect(missOf(row, 'gaussian')).toBeLessThan(0.01 * Math.abs(row.gaussian.peak))
    }
  })
})
