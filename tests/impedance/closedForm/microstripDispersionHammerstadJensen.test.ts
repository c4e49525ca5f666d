import { describe, expect, it } from 'vitest'
import { microstripDispersionHammerstadJensen } from '../../../src/impedance/closedForm/microstripDispersionHammerstadJensen.ts'
import { microstripHammerstadJensen } from '../../../src/impedance/closedForm/microstripHammerstadJensen.ts'
import { missedRows } from '../../helpers/compareTable.ts'
import { microstrip } from '../../helpers/lineShapes.ts'
import { checkValues } from '../../helpers/pairShapes.ts'

const LINE = microstrip(200, 200, 0, 4.2)

describe('microstripDispersionHammerstadJensen', () => {
  it('has the check values of an independent implementation of the same equations', () => {
    const { impedance, effectivePermittivity } = microstripDispersionHammerstadJensen(
      LINE,
      microstripHammerstadJensen(LINE),
      25e9,
    )
    const rows = checkValues('', [impedance, effectivePermittivity], [73.2512107213, 3.07346160711])
    expect(missedRows(rows)).toBe('')
  })

  it('leaves the static values at low frequency', () => {
    const still = microstripHammerstadJensen(LINE)
    const slow = microstripDispersionHammerstadJensen(LINE, still, 1e6)
    expect(slow.impedance).toBeCloseTo(still.impedance, 7)
    expect(slow.effectivePermittivity).toBeCloseTo(still.effectivePermittivity, 7)
  })

  it('is a quarter of its effect at half the frequency, while that is small', () => {
    const still = microstripHammerstadJensen(LINE)
    const rise = (frequency: number): number =>
      microstripDispersionHammerstadJensen(LINE, still, frequency).effectivePermittivity -
      still.effectivePermittivity
    expect(rise(2e9) / rise(1e9)).toBeCloseTo(4, 2)
  })

  it('takes a line hardly filled with dielectric', () => {
    const faint = { impedance: 120, effectivePermittivity: 1.004 }
    const line = { height: 1e-4, relativePermittivity: 1.006 }
    expect(microstripDispersionHammerstadJensen(line, faint, 1e9).impedance).toBeCloseTo(120, 3)
  })

  it('refuses frequency 0 and a line in air', () => {
    expect(() => microstripDispersionHammerstadJensen(LINE, microstripHammerstadJensen(LINE), 0)).toThrow(
      RangeError,
    )
    expect(() =>
      microstripDispersionHammerstadJensen(LINE, { impedance: 100, effectivePermittivity: 1 }, 1e9),
    ).toThrow(/effective permittivity > 1/)
  })
})
