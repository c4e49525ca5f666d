import { describe, expect, it } from 'vitest'
import {
  LIMITS,
  microstripDispersionJansenKirschning,
  NEARLY_AIR,
} from '../../../src/impedance/closedForm/microstripDispersionJansenKirschning.ts'
import { microstripDispersionHammerstadJensen } from '../../../src/impedance/closedForm/microstripDispersionHammerstadJensen.ts'
import { microstripHammerstadJensen } from '../../../src/impedance/closedForm/microstripHammerstadJensen.ts'
import { missedRows } from '../../helpers/compareTable.ts'
import { microstrip } from '../../helpers/lineShapes.ts'
import { checkValues } from '../../helpers/pairShapes.ts'

/** On a substrate 1 mm thick, so that gigahertz are GHz mm. */
function impedance(u: number, er: number, gigahertz: number): number {
  const line = microstrip(1000 * u, 1000, 0, er)
  return microstripDispersionJansenKirschning(line, microstripHammerstadJensen(line), gigahertz * 1e9)
    .impedance
}

describe('microstripDispersionJansenKirschning', () => {
  it('has the check values of an independent implementation of the same equations', () => {
    const actual = [impedance(1, 4.2, 1), impedance(1, 4.2, 5), impedance(2, 9.8, 10)]
    expect(missedRows(checkValues('', actual, [72.4764991377, 72.6020985989, 34.7911081546]))).toBe('')
  })

  it('has the values of a second implementation where every term counts', () => {
    const actual = [
      impedance(0.3, 4.2, 24),
      impedance(0.15, 16, 25),
      impedance(8, 12, 22),
      impedance(0.2, 2.2, 20),
      impedance(5, 3, 25),
    ]
    const expected = [127.739290377, 120.308159888, 12.6519563716, 175.455294582, 33.852624177]
    expect(missedRows(checkValues('', actual, expected))).toBe('')
  })

  it('leaves the static impedance at low frequency, and in air or nearly so', () => {
    const line = microstrip(1000, 1000, 0, 4.2)
    expect(impedance(1, 4.2, 1e-4)).toBeCloseTo(microstripHammerstadJensen(line).impedance, 5)
    for (const er of [1, 1.02, NEARLY_AIR - 1e-9])
      expect(impedance(1, er, 10)).toBe(microstripHammerstadJensen(microstrip(1000, 1000, 0, er)).impedance)
  })

  it('makes no step where it takes over from air', () => {
    expect(NEARLY_AIR).toBe(1.1)
    expect(impedance(1, 1.1, 3) / impedance(1, 1.1 - 1e-9, 3)).toBeCloseTo(1, 2)
  })

  it('stays near the simpler form up to 3 GHz mm', () => {
    const line = microstrip(1000, 1000, 0, 4.2)
    const simple = microstripDispersionHammerstadJensen(line, microstripHammerstadJensen(line), 3e9)
    expect(Math.abs(impedance(1, 4.2, 3) / simple.impedance - 1)).toBeLessThan(0.005)
  })

  it('states the range of the paper', () => {
    expect(LIMITS.map(({ quantity, min, max }) => [quantity, min, max])).toEqual([
      ['width/height', 0.1, 10],
      ['relative permittivity', 1, 18],
      ['height/wavelength', 0, 0.1],
    ])
  })
})
