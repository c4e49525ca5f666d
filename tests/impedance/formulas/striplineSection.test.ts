import { describe, expect, it } from 'vitest'
import { striplineOutline, striplineSection } from '../../../src/impedance/formulas/striplineSection.ts'
import { lineSection, TEST_FREQUENCY } from '../../helpers/lineSection.ts'

const section = lineSection({
  width: 1e-4,
  topWidth: 9e-5,
  thickness: 2e-5,
  below: [[1e-4, 4]],
  above: [
    [1e-4, 3.6],
    [2e-4, 3.6],
  ],
  twoPlanes: true,
})

describe('striplineSection', () => {
  it('reduces either side to one sheet and states the ratios that limits speak of', () => {
    const { line, contrast, values } = striplineSection(section, TEST_FREQUENCY)
    expect(line.below).toBeCloseTo(1e-4, 15)
    expect(line.above).toBeCloseTo(3e-4, 15)
    expect(line.permittivityBelow).toBeCloseTo(4, 12)
    expect(line.permittivityAbove).toBeCloseTo(3.6, 12)
    // Foot towards the nearer plane: 0.57 + 0.15 · (3 − 1)/(3 + 1) of the foot counts.
    expect(line.width).toBeCloseTo((0.645 * 100 + 0.355 * 90) * 1e-6, 12)
    expect(contrast).toBeCloseTo(4 / 3.6, 12)
    expect(values['distance ratio']).toBeCloseTo(3, 12)
    expect(values['thickness/near distance']).toBeCloseTo(0.2, 12)
    expect(values['width/near distance']).toBeCloseTo(line.width / 1e-4, 12)
    expect(values['thickness/spacing']).toBeCloseTo(2 / 42, 12)
    expect(values['width/(spacing - thickness)']).toBeCloseTo(line.width / 4e-4, 12)
  })

  it('agrees with its outline', () => {
    const { width, spacing, thickness, distanceRatio } = striplineOutline(section)
    expect(width).toBeCloseTo(striplineSection(section, TEST_FREQUENCY).line.width, 15)
    expect(spacing).toBeCloseTo(4.2e-4, 15)
    expect(thickness).toBe(2e-5)
    expect(distanceRatio).toBeCloseTo(3, 12)
  })
})
