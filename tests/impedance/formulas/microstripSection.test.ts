import { expect, it } from 'vitest'
import { microstripSection } from '../../../src/impedance/formulas/microstripSection.ts'
import { lineSection, TEST_FREQUENCY } from '../../helpers/lineSection.ts'

it('states the ratios that limits speak of, for the equivalent width', () => {
  const section = lineSection({ width: 1e-4, topWidth: 8e-5, thickness: 2e-5, below: [[5e-5, 4]] })
  const { line, values, added } = microstripSection(section, 9.5e-5, TEST_FREQUENCY)
  expect(line).toMatchObject({ width: 9.5e-5, thickness: 2e-5, height: 5e-5 })
  expect(line.relativePermittivity).toBeCloseTo(4, 12)
  expect(values['width/height']).toBeCloseTo(1.9, 12)
  expect(values['thickness/height']).toBeCloseTo(0.4, 12)
  expect(values['thickness/width']).toBeCloseTo(2 / 9.5, 12)
  expect(added.map(({ error }) => error > 0)).toEqual([true, false])
})
