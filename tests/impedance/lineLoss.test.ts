import { describe, expect, it } from 'vitest'
import { CATALOGUE } from '../../src/impedance/catalogue.ts'
import type { Modes } from '../../src/impedance/estimate.ts'
import { lineLoss } from '../../src/impedance/lineLoss.ts'
import type { CrossSection, DielectricSheet } from '../../src/section/crossSection.ts'
import { missedRows, within } from '../helpers/compareTable.ts'
import { lineSection, TEST_FREQUENCY, type SectionShape } from '../helpers/lineSection.ts'
import { PAIR_STRUCTURES, randomPairs } from '../helpers/randomPairs.ts'
import { randomSections, STRUCTURES } from '../helpers/randomSections.ts'
import { readReferenceTables, rowsOf } from '../helpers/referenceTable.ts'

const TABLES = readReferenceTables('conductorLossReference.json')

function modesOf(section: CrossSection): Modes {
  const formula = CATALOGUE.find((candidate) => candidate.applies(section))
  if (formula === undefined) throw new RangeError('no formula')
  return formula.estimate(section, TEST_FREQUENCY).modes
}

function copper(shape: SectionShape, resistivity: number, roughness = 0): CrossSection {
  const section = lineSection(shape)
  return { ...section, trace: { ...section.trace, resistivity, roughness } }
}

function impedanceOf(modes: Modes): number {
  return modes.kind === 'single' ? modes.line.impedance : NaN
}

/** What is left of a conductor loss when the direct current of the trace is taken out of √(Rdc² + Rskin²). */
function withoutDirectCurrent(conductor: number, { trace }: CrossSection, modes: Modes): number {
  const direct = trace.resistivity / (trace.width * trace.thickness) / (2 * impedanceOf(modes))
  return Math.sqrt(conductor * conductor - direct * direct)
}

function lossy(section: CrossSection, lossTangent: number): CrossSection {
  const sheet = (one: DielectricSheet): DielectricSheet => ({
    ...one,
    permittivity: { ...one.permittivity, lossTangent },
  })
  return { ...section, below: section.below.map(sheet), above: section.above.map(sheet) }
}

const PLAIN: SectionShape = { width: 1e-4, thickness: 1.8e-5, below: [[1e-4, 4]] }
const BETWEEN: SectionShape = { ...PLAIN, above: [[1.5e-4, 4]], twoPlanes: true }

describe('lineLoss', () => {
  // The solution knows no direct current, so only the skin effect is compared. Worst found of the rule with these base
  // formulas by difference: microstrip 0.9 %, stripline 0.7 %.
  it('has the conductor loss of a boundary-element solution', () => {
    const skinPart = (section: CrossSection): number => {
      const modes = modesOf(section)
      return withoutDirectCurrent(lineLoss(section, modes, 10e9).conductor, section, modes)
    }
    const microstrip = rowsOf(TABLES, 'microstrip').map((row) => {
      const { width = NaN, height = NaN, thickness = NaN, permittivity = NaN, conductorLoss = NaN } = row
      const section = copper({ width, thickness, below: [[height, permittivity]] }, 1.72e-8)
      return within(0.009, `${width}`, skinPart(section), conductorLoss)
    })
    const stripline = rowsOf(TABLES, 'stripline').map((row) => {
      const { width = NaN, spacing = NaN, thickness = NaN, permittivity = NaN, conductorLoss = NaN } = row
      const sheet = [[(spacing - thickness) / 2, permittivity]] as const
      const section = copper({ width, thickness, below: sheet, above: sheet, twoPlanes: true }, 1.72e-8)
      return within(0.007, `${width}`, skinPart(section), conductorLoss)
    })
    expect(missedRows([...microstrip, ...stripline])).toBe('')
  })

  it('has on the handbook stripline the dielectric loss printed there, and differs in the conductor loss as it must', () => {
    // Pozar, "Microwave Engineering", example 3.5 (from memory): b 3.2 mm, w 2.66 mm, t 0.01 mm, εr 2.20, tan δ 0.001,
    // copper of 5.813e7 S/m, 10 GHz: dielectric 0.155 Np/m, conductor 0.122 Np/m. The latter is a conflict: ours is 2 % below.
    // Two causes are known: his equation, proportional to the impedance, has the 50 ohm of the design put in for a strip of
    // 49.5 ohm; and it gives 0 to 1.1 % more than a boundary-element solution (striplineConductorLoss.test.ts).
    const sheet = [[1.595e-3, 2.2]] as const
    const shape = { width: 2.66e-3, thickness: 1e-5, below: sheet, above: sheet, twoPlanes: true }
    const section = lossy(copper(shape, 1 / 5.813e7), 0.001)
    const atTen = { ...section, below: section.below.map(at10), above: section.above.map(at10) }
    const modes = modesOf(section)
    const { conductor, dielectric } = lineLoss(atTen, modes, 10e9)
    const atOwnImpedance = impedanceOf(modes) / 50
    expect(0.122 - conductor).toBeGreaterThan(0.0005)
    expect(conductor).toBeGreaterThan((0.1215 * atOwnImpedance) / 1.011)
    expect(conductor).toBeLessThan(0.1225 * atOwnImpedance)
    expect(Math.abs(dielectric - 0.155)).toBeLessThan(0.0005)
  })

  it('is the direct-current resistance over twice the impedance at low frequency, mean width for a trapezoid', () => {
    const section = copper({ ...PLAIN, topWidth: 8e-5 }, 2e-8)
    const modes = modesOf(section)
    const resistance = 2e-8 / (9e-5 * 1.8e-5)
    // At 1 kHz the skin part is below 1 % of that, and adds half its square: 5e-5 at most.
    expect(lineLoss(section, modes, 1e3).conductor / (resistance / (2 * impedanceOf(modes)))).toBeCloseTo(
      1,
      4,
    )
  })

  it('grows with the root of frequency where the skin is thin', () => {
    const section = copper({ ...PLAIN, thickness: 4e-5 }, 1.72e-8)
    const modes = modesOf(section)
    const at = (frequency: number): number =>
      withoutDirectCurrent(lineLoss(section, modes, frequency).conductor, section, modes)
    expect(at(40e9) / at(10e9)).toBeCloseTo(2, 9)
  })

  it('raises the skin-effect loss by the roughness factor it reports', () => {
    const smooth = copper({ ...PLAIN, thickness: 4e-5 }, 1.72e-8)
    const rough = copper({ ...PLAIN, thickness: 4e-5 }, 1.72e-8, 1e-6)
    const modes = modesOf(smooth)
    const [without, withIt] = [smooth, rough].map((section) => lineLoss(section, modes, 10e9))
    const [plain = NaN, raised = NaN] = [without, withIt].map((loss) =>
      withoutDirectCurrent(loss?.conductor ?? NaN, smooth, modes),
    )
    expect(without?.roughnessFactor).toBe(1)
    expect(withIt?.roughnessFactor).toBeGreaterThan(1.7)
    expect(raised / plain).toBeCloseTo(withIt?.roughnessFactor ?? NaN, 9)
  })

  it('has in one dielectric the loss of a plane wave in it, for a single trace and a pair', () => {
    // π f √εr tan δ/c: TEM.
    for (const gap of [undefined, 1e-4]) {
      const section = lossy(lineSection(gap === undefined ? BETWEEN : { ...BETWEEN, gap }), 0.02)
      const expected = (Math.PI * TEST_FREQUENCY * 2 * 0.02) / 299_792_458
      expect(lineLoss(section, modesOf(section), TEST_FREQUENCY).dielectric / expected).toBeCloseTo(1, 5)
    }
  })

  it('shares the energy out: all dielectrics of a stripline together hold all of it', () => {
    const section = lineSection({
      ...BETWEEN,
      below: [
        [4e-5, 3.4],
        [6e-5, 3.9],
      ],
      above: [[1e-4, 4.2]],
    })
    const modes = modesOf(section)
    const ee = modes.kind === 'single' ? modes.line.effectivePermittivity : NaN
    const expected = (Math.PI * TEST_FREQUENCY * Math.sqrt(ee) * 0.02) / 299_792_458
    expect(lineLoss(lossy(section, 0.02), modes, TEST_FREQUENCY).dielectric / expected).toBeCloseTo(1, 4)
  })

  it('gives the substrate of a bare trace its share of the energy, and nothing without loss', () => {
    const section = lineSection(PLAIN)
    const modes = modesOf(section)
    const ee = modes.kind === 'single' ? modes.line.effectivePermittivity : NaN
    const tem = (Math.PI * TEST_FREQUENCY * Math.sqrt(ee) * 0.02) / 299_792_458
    const share = lineLoss(lossy(section, 0.02), modes, TEST_FREQUENCY).dielectric / tem
    // ∂ ln εeff/∂ ln εr of the project's own field solution of this line (boundary elements), by difference: 0.834.
    // 0.2 %: stated by Hammerstad and Jensen for the εeff of the closed form that is differentiated.
    expect(Math.abs(share / 0.834 - 1)).toBeLessThan(0.002)
    // The textbook's share, εr (εeff − 1)/[εeff (εr − 1)], has a filling independent of εr: 0.852, a conflict.
    expect((4 * (ee - 1)) / (ee * 3)).toBeGreaterThan(1.01 * share)
    expect(lineLoss(section, modes, TEST_FREQUENCY).dielectric).toBe(0)
  })

  it('counts mask', () => {
    const mask = { overLaminate: 2e-5, overTrace: 2e-5, permittivity: 3.5 }
    const section = lineSection({ ...PLAIN, mask })
    const lossyMask = {
      ...section,
      mask: section.mask && {
        ...section.mask,
        permittivity: { ...section.mask.permittivity, lossTangent: 0.03 },
      },
    }
    expect(lineLoss(lossyMask, modesOf(section), TEST_FREQUENCY).dielectric).toBeGreaterThan(0)
  })

  it('is finite and positive, whatever the structure', () => {
    const sections = [
      ...STRUCTURES.flatMap((structure) => randomSections(structure, 3, 9)),
      ...PAIR_STRUCTURES.flatMap((structure) => randomPairs(structure, 3, 9)),
    ].map((section) => lossy(section, 0.01))
    const losses = sections.map((section) => lineLoss(section, modesOf(section), 5e9))
    const wrong = losses.filter(
      ({ conductor, dielectric }) => !(conductor > 0 && dielectric > 0 && conductor < 100),
    )
    expect(wrong).toEqual([])
  })

  it('uses the impedance it is given, from whatever method', () => {
    const section = copper(PLAIN, 1.72e-8)
    const modes = modesOf(section)
    if (modes.kind !== 'single') throw new RangeError('not a single line')
    const half: Modes = { kind: 'single', line: { ...modes.line, impedance: modes.line.impedance / 2 } }
    expect(lineLoss(section, half, 10e9).conductor / lineLoss(section, modes, 10e9).conductor).toBeCloseTo(
      2,
      9,
    )
  })
})

function at10(sheet: DielectricSheet): DielectricSheet {
  return { ...sheet, permittivity: { ...sheet.permittivity, frequency: 10e9 } }
}
