import { describe, expect, it } from 'vitest'
import { fieldEstimate } from '../../src/impedance/fieldEstimate.ts'
import { fieldLoss } from '../../src/impedance/fieldLoss.ts'
import type { CrossSection, DielectricSheet } from '../../src/section/crossSection.ts'
import { SPEED_OF_LIGHT } from '../../src/units/constants.ts'
import { missedRows, within } from '../helpers/compareTable.ts'
import { lineSection, TEST_FREQUENCY, type SectionShape } from '../helpers/lineSection.ts'
import { readReferenceTables, rowsOf } from '../helpers/referenceTable.ts'

const TABLES = readReferenceTables('conductorLossReference.json')

function lossy(shape: SectionShape, lossTangent: number): CrossSection {
  const section = lineSection(shape)
  const sheet = (one: DielectricSheet): DielectricSheet => ({
    ...one,
    permittivity: { ...one.permittivity, lossTangent },
  })
  return { ...section, below: section.below.map(sheet), above: section.above.map(sheet) }
}

function lossOf(
  section: CrossSection,
  frequency = TEST_FREQUENCY,
): NonNullable<ReturnType<typeof fieldLoss>> {
  const loss = fieldLoss(section, fieldEstimate(section, frequency).modes, frequency)
  if (loss === null) throw new Error('this section has a field solution')
  return loss
}

/** The skin effect alone: what is left when direct current is taken out of √(Rdc² + Rskin²). */
function skinPart(section: CrossSection, frequency: number): number {
  const { modes } = fieldEstimate(section, frequency)
  const impedance = modes.kind === 'single' ? modes.line.impedance : NaN
  const { trace } = section
  const direct = trace.resistivity / (trace.width * trace.thickness) / (2 * impedance)
  return Math.sqrt(lossOf(section, frequency).conductor ** 2 - direct ** 2)
}

describe('fieldLoss', () => {
  // Independent numerical solution (boundary elements), conductors receding by the rule of incremental inductance.
  it('has the conductor loss of the reference', () => {
    const copper = (shape: SectionShape): CrossSection => {
      const section = lineSection(shape)
      return { ...section, trace: { ...section.trace, resistivity: 1.72e-8 } }
    }
    const microstrip = rowsOf(TABLES, 'microstrip').map((row) => {
      const { width = NaN, height = NaN, thickness = NaN, permittivity = NaN, conductorLoss = NaN } = row
      const section = copper({ width, thickness, below: [[height, permittivity]] })
      return within(0.009, `microstrip ${width}`, skinPart(section, 10e9), conductorLoss)
    })
    const stripline = rowsOf(TABLES, 'stripline').map((row) => {
      const { width = NaN, spacing = NaN, thickness = NaN, permittivity = NaN, conductorLoss = NaN } = row
      const half = (spacing - thickness) / 2
      const sheets: SectionShape['below'] = [[half, permittivity]]
      const section = copper({ width, thickness, below: sheets, above: sheets, twoPlanes: true })
      return within(0.009, `stripline ${width}`, skinPart(section, 10e9), conductorLoss)
    })
    expect(microstrip.length + stripline.length).toBeGreaterThan(3)
    expect(missedRows([...microstrip, ...stripline])).toBe('')
  })

  it('has the dielectric loss of a plane wave where one dielectric fills all', () => {
    const shape: SectionShape = {
      width: 1e-4,
      thickness: 1.8e-5,
      below: [[1e-4, 4]],
      above: [[1.5e-4, 4]],
      twoPlanes: true,
    }
    // π f √εr tan δ / c: D. M. Pozar, Microwave Engineering, eq. 3.30.
    const exact = (Math.PI * TEST_FREQUENCY * 2 * 0.01) / SPEED_OF_LIGHT
    expect(lossOf(lossy(shape, 0.01)).dielectric / exact).toBeCloseTo(1, 3)
    for (const gap of [8e-5, 2e-4]) {
      expect(lossOf(lossy({ ...shape, gap }, 0.01)).dielectric / exact).toBeCloseTo(1, 3)
    }
  })

  it('counts less of a dielectric that only part of the field is in', () => {
    const shape: SectionShape = { width: 1e-4, thickness: 1.8e-5, below: [[1e-4, 4]] }
    const filled = (Math.PI * TEST_FREQUENCY * 2 * 0.01) / SPEED_OF_LIGHT
    expect(lossOf(lossy(shape, 0.01)).dielectric).toBeLessThan(filled)
    expect(lossOf(lossy(shape, 0)).dielectric).toBe(0)
  })

  it('is null where the section is beyond the field solution', () => {
    const section = lineSection({ width: 1e-12, thickness: 1e-14, below: [[1, 4]] })
    const mode = { impedance: 50, effectivePermittivity: 3 }
    expect(fieldLoss(section, { kind: 'single', line: mode }, TEST_FREQUENCY)).toBeNull()
  })
})
