import { describe, expect, it } from 'vitest'
import { lineField } from '../../src/impedance/lineField.ts'
import { lineSection, TEST_FREQUENCY } from '../helpers/lineSection.ts'

const section = lineSection({
  width: 100e-6,
  thickness: 20e-6,
  below: [
    [50e-6, 4],
    [50e-6, 2],
  ],
})

/** The same with a loss tangent that makes the permittivity fall with frequency. */
const lossy = {
  ...section,
  below: section.below.map((sheet) => ({
    ...sheet,
    permittivity: { ...sheet.permittivity, lossTangent: sheet.permittivity.relative > 3 ? 0.08 : 0 },
  })),
}

describe('the field of a line', () => {
  it('is taken at the frequency asked for', () => {
    expect(lineField(section, 20e9)).toEqual(lineField(section, TEST_FREQUENCY))
    expect(lineField(lossy, TEST_FREQUENCY)?.lines).toEqual(lineField(section, TEST_FREQUENCY)?.lines)
    expect(lineField(lossy, 20e9)?.lines).not.toEqual(lineField(section, TEST_FREQUENCY)?.lines)
  })

  it('crowds into the sheet of lower permittivity', () => {
    const points = (lineField(section, TEST_FREQUENCY)?.lines ?? []).map(({ level, points: line }) => ({
      level,
      lowest: Math.min(...line.filter(({ y }) => y > 0 && y < 100e-6).map(({ y }) => y)),
    }))
    // Plates in series share the voltage as thickness over permittivity, 2 : 1; fringing moves it by a tenth.
    const below = points.filter(({ lowest }) => lowest < 50e-6).map(({ level }) => level)
    expect(Math.max(...below)).toBeGreaterThan(0.5)
  })
})
