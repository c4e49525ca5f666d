import type { Board } from '../board/board.ts'
import type { NetClass } from '../board/nets.ts'
import type { Estimate, Modes } from '../impedance/estimate.ts'
import { bracketRoot } from '../numerics/bracketRoot.ts'
import { guidedRoot } from '../numerics/guidedRoot.ts'
import { splineThrough } from '../numerics/spline.ts'
import type { CrossSection, DielectricSheet, LineRequest } from '../section/crossSection.ts'
import { deriveSection } from '../section/deriveSection.ts'
import type { Side } from '../section/withSheetThickness.ts'
import type { Metres, Ohms, Ratio } from '../units/quantity.ts'
import type { CurvePoint, ThicknessChoice } from './thicknessChoice.ts'
import { scaleBetween, type ScaleKnot } from './scaledForm.ts'
import { variedLine } from './variedLine.ts'
import { dielectricNamed } from './withThickness.ts'

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
/** Miss of the target at which a thickness is found: half of the least error band, and nothing in the printed digits. */
const CLOSE: Ratio = 5e-4

/**
 * The pressed thickness of the dielectric between a trace and its nearest plane that brings the trace to its target.
 *
 * Searched from the fabricator's thinnest dielectric to 0.6 mm, or four times the thinnest if that is more. The best
 * closed form is scaled to the chosen method at the present thickness, and to coarse field solutions over the range
 * (`scaleBetween`), and sampled; a spline through the samples shows every place where it crosses the target; the crossing
 * nearest to the present thickness is then met by the chosen method itself, and the scale put right there. Where nothing
 * meets the target, the window is that of the thickness nearest to it, if it is within the tolerance.
 * Throws RangeError for what `deriveSection` refuses.
 */
export function chooseThickness(board: Board, question: ThicknessQuestion): ThicknessChoice {
  const { request, target, tolerance } = question
  const search = searchOf(board, question)
  const { thickness, curve, quick } = solve(search, target)
  const present = search.best(search.present)
  const reached = thickness === null ? null : search.best(thickness)
  return {
    layer: request.layer,
    netClass: question.netClass?.name ?? null,
    stretch: question.stretch,
    width: request.width,
    gap: request.gap,
    target,
    dielectric: search.dielectric,
    present: { thickness: search.present, impedance: present.impedance },
    thickness,
    reached: reached === null ? null : reachedBy(reached),
    reason: thickness === null ? whyNone(curve, target) : null,
    window: windowAround(curve, target, tolerance, thickness, quick),
    curve,
  }
}

/**
 * The thickness alone, without its window, by the scaled closed form: for a
 * finding that wants to know what would help, draws it to a grid and solves it there. Null where none does.
 *
 * Throws as `chooseThickness` does.
 */
export function thicknessNear(
  board: Board,
  question: ThicknessTarget,
): { dielectric: string; thickness: Metres } | null {
  const search = searchOf(board, question)
  const { crossing } = roughly(search, question.target)
  return crossing === null ? null : { dielectric: search.dielectric, thickness: crossing }
}

interface Search {
  readonly dielectric: string
  readonly present: Metres
  /** Thinnest and thickest tried. */
  readonly range: readonly [Metres, Metres]
  /** The best closed form at a thickness, and the method that the verdict would use. */
  readonly closedForm: (thickness: Metres) => Ohms
  readonly best: (thickness: Metres) => LineValue
  /** A coarse field solution; null where there is none. */
  readonly coarse: (thickness: Metres) => LineValue | null
}

function searchOf(board: Board, question: ThicknessTarget): Search {
  const section = deriveSection(board.stackup, question.request)
  const { side, dielectric } = governingDielectric(section)
  const present = dielectricNamed(board.stackup, dielectric).thickness
  const thinnest = board.fabrication.minDielectric
  const { closedForm, best, coarse } = variedLine(section, side, board.analysis.frequency)
  return {
    dielectric,
    present,
    // A fabricator whose thinnest dielectric is thicker still gets a range to choose from.
    range: [thinnest, Math.max(THICKEST, 4 * thinnest)],
    closedForm: (thickness) => impedanceOf(closedForm(thickness), question),
    best: (thickness) => valueOf(best(thickness), question),
    coarse: (thickness) => {
      const field = coarse(thickness)
      return field && valueOf(field, question)
    },
  }
}

interface Solved {
  readonly thickness: Metres | null
  readonly curve: readonly CurvePoint[]
  /** The closed form, scaled. */
  readonly quick: (thickness: Metres) => Ohms
}

/** By the closed form, scaled to what is known at the present thickness and over the range. */
function roughly(
  search: Search,
  target: Ohms,
): Omit<Solved, 'thickness'> & { readonly crossing: Metres | null; readonly knots: readonly ScaleKnot[] } {
  const knots = [bestKnot(search, search.present), ...coarseKnots(search)]
  const scaled = scaledBy(search, knots)
  return {
    ...scaled,
    knots,
    crossing: nearest(crossings(scaled.curve, target, scaled.quick), search.present),
  }
}

function solve(search: Search, target: Ohms): Solved {
  const { curve, quick, knots, crossing } = roughly(search, target)
  const thickness = crossing === null ? null : met(search, quick, target, curve, crossing)
  if (thickness === null) return { thickness: null, curve, quick }
  return { thickness, ...scaledBy(search, [bestKnot(search, thickness), ...knots]) }
}

function scaledBy({ closedForm, range }: Search, knots: readonly ScaleKnot[]): Omit<Solved, 'thickness'> {
  const scaleAt = scaleBetween(knots)
  const quick = (thickness: Metres): Ohms => scaleAt(thickness).scale * closedForm(thickness)
  return { quick, curve: sampleCurve(quick, (thickness) => scaleAt(thickness).band, range) }
}

function bestKnot({ best, closedForm }: Search, thickness: Metres): ScaleKnot {
  const { impedance, chosen } = best(thickness)
  return { thickness, scale: impedance / closedForm(thickness), band: chosen.claimedError }
}

/** At both ends of the range, and midway between them and the present thickness over the logarithm. */
function coarseKnots({ coarse, closedForm, present, range: [thinnest, thickest] }: Search): ScaleKnot[] {
  const midways = [thinnest, thickest].map((end) => Math.sqrt(end * present))
  return [thinnest, ...midways, thickest].flatMap((thickness) => {
    const field = coarse(thickness)
    if (field === null) return []
    const scale = field.impedance / closedForm(thickness)
    return [{ thickness, scale, band: field.chosen.claimedError }]
  })
}

/** The crossing as the chosen method sees it, sought one sample beyond those on both sides of the closed form's. */
function met(
  { best }: Search,
  quick: (thickness: Metres) => Ohms,
  target: Ohms,
  rough: readonly CurvePoint[],
  crossing: Metres,
): Metres | null {
  const knots = rough.map((point) => point.thickness)
  const after = knots.findIndex((knot) => knot > crossing)
  const above = after < 0 ? knots.length - 1 : after
  const at = (index: number): Metres => Number(knots[Math.min(knots.length - 1, Math.max(0, index))])
  return guidedRoot((thickness) => best(thickness).impedance, quick, target, [at(above - 2), at(above + 1)], {
    tolerance: CLOSE,
  })
}

/** The sheet next to the trace on the side of the nearer plane. */
function governingDielectric(section: CrossSection): { side: Side; dielectric: string } {
  const distance = (sheets: readonly DielectricSheet[]): Metres =>
    sheets.reduce((sum, sheet) => sum + sheet.thickness, 0)
  const nearAbove = section.planeAbove !== null && distance(section.above) < distance(section.below)
  const side = nearAbove ? 'above' : 'below'
  const [sheet] = section[side]
  if (sheet === undefined) throw new RangeError(`nothing lies between ${section.layerName} and its plane`)
  return { side, dielectric: sheet.name }
}

/** What a search needs of a line. */
interface LineValue {
  readonly impedance: Ohms
  readonly chosen: Estimate
}

function valueOf(chosen: Estimate, question: ThicknessTarget): LineValue {
  return { impedance: impedanceOf(chosen.modes, question), chosen }
}

/** Differential for a pair, whether coupled or as two lone traces. */
function impedanceOf(modes: Modes, { netClass }: ThicknessTarget): Ohms {
  return modes.kind === 'pair'
    ? 2 * modes.odd.impedance
    : (netClass?.structure === 'pair' ? 2 : 1) * modes.line.impedance
}

function sampleCurve(
  quick: (thickness: Metres) => Ohms,
  bandAt: (thickness: Metres) => Ratio,
  [thinnest, thickest]: Search['range'],
): CurvePoint[] {
  const step = Math.log(thickest / thinnest) / (CURVE_POINTS - 1)
  return Array.from({ length: CURVE_POINTS }, (_, index) => {
    const thickness = thinnest * Math.exp(index * step)
    return { thickness, impedance: quick(thickness), band: bandAt(thickness) }
  })
}

/** Every thickness at which the impedance is `level`, to a nanometre. */
function crossings(curve: readonly CurvePoint[], level: Ohms, at: (thickness: Metres) => Ohms): Metres[] {
  const logs = curve.map((point) => Math.log(point.thickness))
  const rough = splineThrough(
    logs,
    curve.map((point) => point.impedance),
  ).crossings(level)
  const miss = (thickness: Metres): number => at(thickness) - level
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
  return { impedance: line.impedance, band: line.chosen.claimedError, method: line.chosen.method.title }
}

function whyNone(curve: readonly CurvePoint[], target: Ohms): string {
  const values = curve.map((point) => point.impedance)
  return Math.min(...values) > target
    ? 'the trace is too narrow: even the thinnest dielectric leaves it above the target'
    : 'the trace is too wide, or its other plane too near: even the thickest dielectric leaves it below the target'
}

/** The stretch of thickness round the choice, or round what comes nearest to the target, that stays inside target ± tolerance. */
function windowAround(
  curve: readonly CurvePoint[],
  target: Ohms,
  tolerance: Ratio,
  thickness: Metres | null,
  at: (thickness: Metres) => Ohms,
): ThicknessChoice['window'] {
  const inside = thickness ?? nearestInside(curve, target, tolerance)
  if (inside === null) return null
  const edges = [
    ...crossings(curve, target * (1 - tolerance), at),
    ...crossings(curve, target * (1 + tolerance), at),
  ]
  const thinnest = curve[0]?.thickness ?? inside
  const thickest = curve.at(-1)?.thickness ?? inside
  return {
    min: Math.max(thinnest, ...edges.filter((edge) => edge < inside)),
    max: Math.min(thickest, ...edges.filter((edge) => edge > inside)),
  }
}

/** The sample nearest to a target that none meets; null where even that one is outside the tolerance. */
function nearestInside(curve: readonly CurvePoint[], target: Ohms, tolerance: Ratio): Metres | null {
  const miss = ({ impedance }: CurvePoint): Ratio => Math.abs(impedance / target - 1)
  const [best] = curve.toSorted((a, b) => miss(a) - miss(b))
  return best !== undefined && miss(best) <= tolerance ? best.thickness : null
}
