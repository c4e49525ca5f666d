import type { Board } from '../board/board.ts'
import type { NetClass } from '../board/nets.ts'
import type { Stackup } from '../board/stackup.ts'
import type { FormulaEstimate } from '../impedance/estimate.ts'
import { chosenEstimate } from '../impedance/estimateLine.ts'
import { bracketRoot } from '../numerics/bracketRoot.ts'
import { splineThrough } from '../numerics/spline.ts'
import type { CrossSection, DielectricSheet, LineRequest } from '../section/crossSection.ts'
import { deriveSection } from '../section/deriveSection.ts'
import type { Metres, Ohms, Ratio } from '../units/quantity.ts'
import type { CurvePoint, ThicknessChoice } from './thicknessChoice.ts'
import { dielectricNamed, withThickness } from './withThickness.ts'

/** A trace and what it should become. */
export interface ThicknessTarget {
  readonly request: LineRequest
  /** Line impedance of a single trace, differential of a pair. */
  readonly target: Ohms
  /** A pair without a gap counts as two lone traces; null takes the request as it stands. */
  readonly netClass: NetClass | null
}

export interface ThicknessQuestion extends ThicknessTarget {
  readonly tolerance: Ratio
  readonly stretch: 'neck' | 'main'
}

/** Thickest dielectric tried: beyond it the other conductors of a breakout carry the return current. */
const THICKEST: Metres = 600e-6
const CURVE_POINTS = 25
const THICKNESS_TOLERANCE: Metres = 1e-9

/**
 * The pressed thickness of the dielectric between a trace and its nearest plane that brings the trace to
 * its target, by the closed form that the chooser trusts most at each thickness.
 *
 * Searched from the fabricator's thinnest dielectric to 0.6 mm, or four times the thinnest if that is more. The impedance is sampled, a spline through
 * the samples shows every place where it crosses the target, and each crossing is refined with the formula
 * itself. Where several cross, the one nearest to the present thickness is taken.
 * Throws RangeError for what `deriveSection` refuses.
 */
export function chooseThickness(board: Board, question: ThicknessQuestion): ThicknessChoice {
  const { request, target, tolerance } = question
  const name = governingDielectric(deriveSection(board.stackup, request))
  const at = (thickness: Metres): LineValue =>
    valueOn(withThickness(board.stackup, name, thickness), question, board.analysis.frequency)
  const curve = sampleCurve(at, board.fabrication.minDielectric)
  const present = dielectricNamed(board.stackup, name).thickness
  const thickness = nearest(crossings(curve, target, at), present)
  const reached = thickness === null ? null : at(thickness)
  return {
    layer: request.layer,
    netClass: question.netClass?.name ?? null,
    stretch: question.stretch,
    width: request.width,
    gap: request.gap,
    target,
    dielectric: name,
    present: { thickness: present, impedance: at(present).impedance },
    thickness,
    reached: reached === null ? null : reachedBy(reached),
    reason: thickness === null ? whyNone(curve, target) : null,
    window: windowAround(curve, target, tolerance, thickness, at),
    curve,
  }
}

/**
 * The thickness alone, without its window, for a finding that wants to know what would help; null where none does.
 *
 * Throws as `chooseThickness` does.
 */
export function thicknessFor(
  board: Board,
  question: ThicknessTarget,
): { dielectric: string; thickness: Metres } | null {
  const dielectric = governingDielectric(deriveSection(board.stackup, question.request))
  const at = (thickness: Metres): LineValue =>
    valueOn(withThickness(board.stackup, dielectric, thickness), question, board.analysis.frequency)
  const curve = sampleCurve(at, board.fabrication.minDielectric)
  const present = dielectricNamed(board.stackup, dielectric).thickness
  const thickness = nearest(crossings(curve, question.target, at), present)
  return thickness === null ? null : { dielectric, thickness }
}

/** The sheet next to the trace on the side of the nearer plane. */
function governingDielectric(section: CrossSection): string {
  const distance = (sheets: readonly DielectricSheet[]): Metres =>
    sheets.reduce((sum, sheet) => sum + sheet.thickness, 0)
  const nearAbove = section.planeAbove !== null && distance(section.above) < distance(section.below)
  const sheet = (nearAbove ? section.above : section.below)[0]
  if (sheet === undefined) throw new RangeError(`nothing lies between ${section.layerName} and its plane`)
  return sheet.name
}

/** What a search needs of a line. */
interface LineValue {
  readonly impedance: Ohms
  readonly chosen: FormulaEstimate
}

/** Differential for a pair, whether coupled or as two lone traces. */
function valueOn(stackup: Stackup, question: ThicknessTarget, frequency: number): LineValue {
  const chosen = chosenEstimate(deriveSection(stackup, question.request), frequency)
  const impedance =
    chosen.modes.kind === 'pair'
      ? 2 * chosen.modes.odd.impedance
      : (question.netClass?.structure === 'pair' ? 2 : 1) * chosen.modes.line.impedance
  return { impedance, chosen }
}

function sampleCurve(at: (thickness: Metres) => LineValue, thinnest: Metres): CurvePoint[] {
  // A fabricator whose thinnest dielectric is thicker still gets a range to choose from.
  const thickest = Math.max(THICKEST, 4 * thinnest)
  const step = Math.log(thickest / thinnest) / (CURVE_POINTS - 1)
  return Array.from({ length: CURVE_POINTS }, (_, index) => {
    const thickness = thinnest * Math.exp(index * step)
    const line = at(thickness)
    return { thickness, impedance: line.impedance, band: line.chosen.claimedError }
  })
}

/** Every thickness at which the impedance is `level`, to a nanometre. */
function crossings(
  curve: readonly CurvePoint[],
  level: Ohms,
  at: (thickness: Metres) => LineValue,
): Metres[] {
  const logs = curve.map((point) => Math.log(point.thickness))
  const rough = splineThrough(
    logs,
    curve.map((point) => point.impedance),
  ).crossings(level)
  const miss = (thickness: Metres): number => at(thickness).impedance - level
  return rough.flatMap((log) => {
    const low = Math.exp(Math.max(...logs.filter((knot) => knot <= log)))
    const high = Math.exp(Math.min(...logs.filter((knot) => knot >= log)))
    if (low === high) return [low]
    // Between two samples on one side of the level the spline has only overshot.
    if (miss(low) > 0 === miss(high) > 0) return []
    return [bracketRoot(miss, low, high, { tolerance: THICKNESS_TOLERANCE })]
  })
}

function nearest(candidates: readonly Metres[], present: Metres): Metres | null {
  const [best] = [...candidates].sort((one, other) => Math.abs(one - present) - Math.abs(other - present))
  return best ?? null
}

function reachedBy(line: LineValue): NonNullable<ThicknessChoice['reached']> {
  return { impedance: line.impedance, band: line.chosen.claimedError, method: line.chosen.formula.title }
}

function whyNone(curve: readonly CurvePoint[], target: Ohms): string {
  const values = curve.map((point) => point.impedance)
  return Math.min(...values) > target
    ? 'the trace is too narrow: even the thinnest dielectric leaves it above the target'
    : 'the trace is too wide, or its other plane too near: even the thickest dielectric leaves it below the target'
}

/** The stretch of thickness round the choice that stays inside target ± tolerance. */
function windowAround(
  curve: readonly CurvePoint[],
  target: Ohms,
  tolerance: Ratio,
  thickness: Metres | null,
  at: (thickness: Metres) => LineValue,
): ThicknessChoice['window'] {
  if (thickness === null) return null
  const edges = [
    ...crossings(curve, target * (1 - tolerance), at),
    ...crossings(curve, target * (1 + tolerance), at),
  ]
  const thinnest = curve[0]?.thickness ?? thickness
  const thickest = curve.at(-1)?.thickness ?? thickness
  return {
    min: Math.max(thinnest, ...edges.filter((edge) => edge < thickness)),
    max: Math.min(thickest, ...edges.filter((edge) => edge > thickness)),
  }
}
