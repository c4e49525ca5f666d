import { describe, expect, it } from 'vitest'
import { microstripHammerstadJensen } from '../../../src/impedance/closedForm/microstripHammerstadJensen.ts'
import {
  LIMITS,
  microstripPairDispersion,
} from '../../../src/impedance/closedForm/microstripPairDispersion.ts'
import { microstripPairKirschningJansen } from '../../../src/impedance/closedForm/microstripPairKirschningJansen.ts'
import type { MicrostripPair } from '../../../src/impedance/closedForm/microstripPair.ts'
import { missedRows } from '../../helpers/compareTable.ts'
import { checkValues, fourConstants, microstripPair } from '../../helpers/pairShapes.ts'

function at(pair: MicrostripPair, frequency: number): number[] {
  const statics = { ...microstripPairKirschningJansen(pair), single: microstripHammerstadJensen(pair) }
  return fourConstants(microstripPairDispersion(pair, statics, frequency))
}

/** By u = w/h, g = s/h, εr and f h in GHz mm, on a substrate 1 mm thick. */
function constants(u: number, g: number, er: number, gigahertz: number): number[] {
  return at(microstripPair(1000 * u, 1000 * g, 1000, 0, er), gigahertz * 1e9)
}

describe('microstripPairDispersion', () => {
  it('has the check values of an independent implementation of the same equations', () => {
    const rows = [
      ...checkValues(
        '1, 1, 4.2 at 2',
        constants(1, 1, 4.2, 2),
        [82.5704911557, 61.5284490191, 3.26501899693, 2.78018567944],
      ),
      ...checkValues(
        '2, 0.5, 9.8 at 10',
        constants(2, 0.5, 9.8, 10),
        [40.7052114839, 26.8437181313, 8.55775826819, 6.62575512857],
      ),
    ]
    expect(missedRows(rows)).toBe('')
  })

  it('has the values of a second implementation where every term counts', () => {
    const rows = [
      ...checkValues(
        '0.3, 0.4, 4.2 at 24',
        constants(0.3, 0.4, 4.2, 24),
        [169.191883538, 78.270034832, 3.33679897495, 2.68391593542],
      ),
      ...checkValues(
        '0.15, 0.2, 16 at 25',
        constants(0.15, 0.2, 16, 25),
        [159.545794759, 44.9859445645, 12.7122685271, 8.9847695021],
      ),
      ...checkValues(
        '8, 3, 12 at 22',
        constants(8, 3, 12, 22),
        [12.5725559709, 12.6401805494, 11.7637615233, 11.6321564494],
      ),
      ...checkValues(
        '0.2, 6, 2.2 at 20',
        constants(0.2, 6, 2.2, 20),
        [176.854799646, 170.726870388, 1.73903481463, 1.72070925733],
      ),
      ...checkValues(
        '5, 0.15, 3 at 25',
        constants(5, 0.15, 3, 25),
        [38.5427914308, 28.0390572238, 2.89909244304, 2.63526950751],
      ),
    ]
    expect(missedRows(rows)).toBe('')
  })

  it('leaves the static values at low frequency', () => {
    const pair = microstripPair(100, 100, 100, 0, 4)
    const still = fourConstants(microstripPairKirschningJansen(pair))
    at(pair, 1e3).forEach((value, index) => {
      expect(value / (still[index] ?? NaN)).toBeCloseTo(1, 8)
    })
  })

  it('changes impedances by less than 1 % on printed boards up to 3 GHz mm, as its own description says', () => {
    // A trait of the equations, no source; wider strips than w/h = 5 change by up to 1.3 %, within the 2.5 % of the authors.
    for (const u of [0.1, 0.3, 1, 3, 5])
      for (const g of [0.1, 0.3, 1, 3, 10])
        for (const er of [3, 4.5])
          for (const fn of [0.3, 3]) {
            const still = microstripPairKirschningJansen(microstripPair(1000 * u, 1000 * g, 1000, 0, er))
            const [even = NaN, odd = NaN] = constants(u, g, er, fn)
            expect(Math.abs(even / still.even.impedance - 1)).toBeLessThan(0.01)
            expect(Math.abs(odd / still.odd.impedance - 1)).toBeLessThan(0.01)
          }
    const wide = microstripPairKirschningJansen(microstripPair(10_000, 10_000, 1000, 0, 4))
    expect((constants(10, 10, 4, 3)[1] ?? NaN) / wide.odd.impedance).toBeGreaterThan(1.01)
  })

  it('draws both permittivities towards that of the substrate as frequency rises', () => {
    const [, , evenLow = NaN, oddLow = NaN] = constants(1, 1, 4.2, 1)
    const [, , evenHigh = NaN, oddHigh = NaN] = constants(1, 1, 4.2, 20)
    expect(evenHigh).toBeGreaterThan(evenLow)
    expect(oddHigh).toBeGreaterThan(oddLow)
    expect(evenHigh).toBeLessThan(4.2)
    expect(oddHigh).toBeLessThan(4.2)
  })

  it('keeps the impedances of a pair in air or nearly so', () => {
    for (const er of [1, 1.02, 1.0999]) {
      const still = microstripPairKirschningJansen(microstripPair(1000, 1000, 1000, 0, er))
      const [even, odd] = constants(1, 1, er, 20)
      expect(even).toBe(still.even.impedance)
      expect(odd).toBe(still.odd.impedance)
    }
    expect(constants(1, 1, 1.11, 20)[0]).not.toBe(constants(1, 1, 1.11, 1)[0])
  })

  it('states the range of the papers', () => {
    expect(LIMITS.map(({ quantity, min, max }) => [quantity, min, max])).toEqual([
      ['width/height', 0.1, 10],
      ['gap/height', 0.1, 10],
      ['relative permittivity', 1, 18],
      ['height/wavelength', 0, 0.1],
    ])
  })

  it('refuses frequency 0', () => {
    expect(() => at(microstripPair(100, 100, 100, 0, 4), 0)).toThrow(/frequency > 0/)
  })
})
