import type { CrossSection, DielectricSheet } from '../section/crossSection.ts'
import type { Hertz, Metres, NepersPerMetre } from '../units/quantity.ts'
import { CATALOGUE } from './catalogue.ts'
import { dielectricLoss, type DielectricShare } from './closedForm/dielectricLoss.ts'
import { incrementalInductanceLoss } from './closedForm/incrementalInductance.ts'
import { directCurrentResistance, lowFrequencyJoin } from './closedForm/lowFrequencyJoin.ts'
import { roughnessHammerstad } from './closedForm/roughnessHammerstad.ts'
import { skinDepth, surfaceResistance } from './closedForm/skinEffect.ts'
import { permittivityAt } from './closedForm/widebandPermittivity.ts'
import type { Formula, LineLoss, ModeConstants, Modes } from './estimate.ts'

/**
 * Loss of a line, or of the odd mode of a pair, at a frequency.
 *
 * Conductor: Wheeler's incremental-inductance rule on the first closed form that the catalogue lists for the structure,
 * by moving every metal face; surface resistance raised by Hammerstad's roughness factor; joined with the direct-current
 * resistance of the trace as √(Rdc² + Rskin²). Dielectric: loss tangents at the frequency by the causal model, each
 * weighted by the share of electric energy in its sheet, ∂ ln εeff/∂ ln εr of the same closed form. Impedance and
 * effective permittivity are those of `modes`, whichever method they came from.
 *
 * The rule itself agrees with a boundary-element solution within about 1 %; foil data decide the rest. The return
 * current is counted in the skin effect only. Throws RangeError when no closed form answers for the section.
 */
export function lineLoss(section: CrossSection, modes: Modes, frequency: Hertz): LineLoss {
  const formula = CATALOGUE.find((candidate) => candidate.applies(section))
  if (formula === undefined) {
    throw new RangeError(`no closed form answers for a ${section.arrangement} ${section.structure}`)
  }
  const mode = signalMode(modes)
  return lossOf(section, mode, frequency, {
    smooth: incrementalInductanceLoss({
      impedance: mode.impedance,
      surfaceResistance: surfaceResistance(section.trace.resistivity, frequency),
      airImpedance: (depth) => {
        const { impedance, effectivePermittivity } = modeOf(formula, receded(section, depth), frequency)
        return impedance * Math.sqrt(effectivePermittivity)
      },
      smallestLength: smallestLength(section),
    }),
    shares: sharesOf(section, formula, frequency),
    method: `incremental inductance by difference (${formula.id}), Hammerstad roughness, joined with direct current; dielectric weighted by sheets`,
  })
}

/** What a method finds of a line's loss, besides what all of them have in common. */
export interface LossParts {
  /** Conductor loss of smooth copper where the skin is thin. */
  readonly smooth: NepersPerMetre
  /** Every lossy dielectric with its share of the energy. */
  readonly shares: readonly DielectricShare[]
  readonly method: string
}

/** Raises smooth copper's loss by its roughness, joins it with direct current, and adds the dielectrics'. */
export function lossOf(
  section: CrossSection,
  { impedance, effectivePermittivity }: ModeConstants,
  frequency: Hertz,
  { smooth, shares, method }: LossParts,
): LineLoss {
  const { trace } = section
  const roughnessFactor = roughnessHammerstad(trace.roughness, skinDepth(trace.resistivity, frequency))
  const meanWidth = (trace.width + trace.topWidth) / 2
  const direct = directCurrentResistance(trace.resistivity, meanWidth, trace.thickness)
  return {
    frequency,
    conductor: lowFrequencyJoin(direct, 2 * impedance * smooth * roughnessFactor) / (2 * impedance),
    dielectric: dielectricLoss(effectivePermittivity, shares, frequency),
    roughnessFactor,
    method,
  }
}

/** The mode that the signal travels in. */
export function signalMode(modes: Modes): ModeConstants {
  return modes.kind === 'single' ? modes.line : modes.odd
}

function modeOf(formula: Formula, section: CrossSection, frequency: Hertz): ModeConstants {
  return signalMode(formula.modes(section, frequency))
}

/** The section after every metal face has receded by a depth: metal shrinks by twice that, the distances between grow. */
function receded(section: CrossSection, depth: Metres): CrossSection {
  const { trace, gap, coplanarGap, broadside, planeAbove } = section
  const grown = 2 * depth
  return {
    ...section,
    trace: {
      ...trace,
      width: trace.width - grown,
      topWidth: trace.topWidth - grown,
      thickness: trace.thickness - grown,
    },
    gap: gap === null ? null : gap + grown,
    coplanarGap: coplanarGap === null ? null : coplanarGap + grown,
    below: thicker(section.below, grown),
    // With one plane nothing above is metal.
    above: planeAbove === null ? section.above : thicker(section.above, grown),
    broadside: broadside === null ? null : { ...broadside, sheets: thicker(broadside.sheets, grown) },
  }
}

function thicker(sheets: readonly DielectricSheet[], by: Metres): DielectricSheet[] {
  const total = sheets.reduce<Metres>((sum, sheet) => sum + sheet.thickness, 0)
  return sheets.map((sheet) => ({ ...sheet, thickness: (sheet.thickness * (total + by)) / total }))
}

function smallestLength(section: CrossSection): Metres {
  const { trace, gap, coplanarGap, below, above, broadside } = section
  const sheets = [...below, ...above, ...(broadside?.sheets ?? [])].map((sheet) => sheet.thickness)
  return Math.min(trace.topWidth, trace.thickness, gap ?? Infinity, coplanarGap ?? Infinity, ...sheets)
}

/** Step of ln εr for its share: the error of a central difference falls with the square of it. */
const STEP = 1e-3

/** Every lossy dielectric of the section with its share of the energy. */
function sharesOf(section: CrossSection, formula: Formula, frequency: Hertz): DielectricShare[] {
  return dielectricsOf(section).flatMap(({ permittivity, scaled }) => {
    const { lossTangent } = permittivityAt(permittivity, frequency)
    if (lossTangent === 0) return []
    const logarithm = (factor: number): number =>
      Math.log(modeOf(formula, scaled(factor), frequency).effectivePermittivity)
    // A share that the closed form makes slightly negative, in a sheet hardly reached by the field, is none.
    const share = Math.max(0, (logarithm(1 + STEP) - logarithm(1 - STEP)) / (2 * STEP))
    return [{ share, lossTangent }]
  })
}

interface ScalableDielectric {
  readonly permittivity: DielectricSheet['permittivity']
  /** The section with this dielectric's permittivity times a factor. */
  readonly scaled: (factor: number) => CrossSection
}

function dielectricsOf(section: CrossSection): ScalableDielectric[] {
  const { below, above, broadside, mask } = section
  const pile = (
    sheets: readonly DielectricSheet[],
    put: (changed: readonly DielectricSheet[]) => CrossSection,
  ): ScalableDielectric[] =>
    sheets.map(({ permittivity }, index) => ({
      permittivity,
      scaled: (factor) =>
        put(
          sheets.map((sheet, at) =>
            at === index ? { ...sheet, permittivity: times(sheet.permittivity, factor) } : sheet,
          ),
        ),
    }))
  return [
    ...pile(below, (changed) => ({ ...section, below: changed })),
    ...pile(above, (changed) => ({ ...section, above: changed })),
    ...(broadside === null
      ? []
      : pile(broadside.sheets, (sheets) => ({ ...section, broadside: { ...broadside, sheets } }))),
    ...(mask === null
      ? []
      : [
          {
            permittivity: mask.permittivity,
            scaled: (factor: number): CrossSection => ({
              ...section,
              mask: { ...mask, permittivity: times(mask.permittivity, factor) },
            }),
          },
        ]),
  ]
}

function times(
  permittivity: DielectricSheet['permittivity'],
  factor: number,
): DielectricSheet['permittivity'] {
  return { ...permittivity, relative: permittivity.relative * factor }
}
