import { describe, expect, it } from 'vitest'
import { coatedSection, embeddedSection } from '../../../src/impedance/formulas/coverSection.ts'
import { lineSection, TEST_FREQUENCY } from '../../helpers/lineSection.ts'

const shape = { width: 1e-4, thickness: 2e-5, below: [[1e-4, 4]] as const }
const mask = { overLaminate: 30e-6, overTrace: 12e-6, permittivity: 3.5 }

describe('the even coat', () => {
  it('is the coat itself when it is even, else two thirds laminate and one third trace', () => {
    const coat = (overLaminate: number, overTrace: number): number => {
      const section = lineSection({ ...shape, mask: { ...mask, overLaminate, overTrace } })
      if (section.mask === null) throw new Error('no mask')
      return coatedSection(section, section.mask, 1e-4, TEST_FREQUENCY).line.coverThickness
    }
    expect(coat(20e-6, 20e-6)).toBeCloseTo(20e-6, 15)
    expect(coat(30e-6, 12e-6)).toBeCloseTo(24e-6, 15)
  })
})

describe('coatedSection', () => {
  it('gives the even coat and adds error for unevenness', () => {
    const section = lineSection({ ...shape, mask })
    if (section.mask === null) throw new Error('no mask')
    const { line, values, added } = coatedSection(section, section.mask, 1e-4, TEST_FREQUENCY)
    expect(line.coverThickness).toBeCloseTo(24e-6, 15)
    expect(line.coverPermittivity).toBe(3.5)
    expect(values['coat thickness/height']).toBeCloseTo(0.24, 12)
    expect(added.at(-1)?.error).toBeCloseTo(0.01 * (1 - 12 / 30), 12)
  })
})

describe('embeddedSection', () => {
  it('takes mask on the outer face for one more sheet of the cover', () => {
    const section = lineSection({ ...shape, above: [[5e-5, 4.4]], mask })
    const { line, asOne, values, added } = embeddedSection(section, 1e-4, TEST_FREQUENCY)
    expect(line.covers).toEqual([
      { thickness: 5e-5, relativePermittivity: 4.4 },
      { thickness: 30e-6, relativePermittivity: 3.5 },
    ])
    expect(asOne.coverThickness).toBeCloseTo(8e-5, 15)
    expect(asOne.coverPermittivity).toBeCloseTo((5 * 4.4 + 3 * 3.5) / 8, 12)
    expect(values['permittivity contrast']).toBeCloseTo(4.4 / 3.5, 12)
    expect(added.at(-1)?.error).toBeCloseTo(0.035 * (4.4 / 3.5 - 1), 12)
  })
})
