import type { Board } from '../board/board.ts'
import type { BesideNeck, NeckStretch } from '../routes/route.ts'
import type { DielectricSheet } from '../section/crossSection.ts'
import type { PerforatedPlane } from '../section/surroundings.ts'
import { surroundingsOf } from '../section/surroundingsOf.ts'
import { SPEED_OF_LIGHT } from '../units/constants.ts'
import type { Metres, Ohms, Ratio, SecondsPerMetre } from '../units/quantity.ts'
import { channelLoading, type Loading } from './channelLoading.ts'
import type { LineImpedance } from './estimate.ts'

/** A neck as what stands beside it loads it: antipads in its planes, barrels and pads, averaged along its length. */
export interface LoadedLine {
  /** Line impedance of a single trace, differential of a pair. */
  readonly impedance: Ohms
  readonly effectivePermittivity: Ratio
  readonly delay: SecondsPerMetre
  /** Half-width of the error band: that of the line, and what the loading leaves. */
  readonly band: Ratio
  /** Over the impedance between solid planes with nothing beside. */
  readonly ratio: Ratio
}

/** A neck, or several together, and what stands beside all of it. */
export type Passage = Pick<NeckStretch, 'length' | 'beside'>

/**
 * A line in its real surroundings. Each via or land beside it adds to capacitance and inductance half of what the full
 * channel of such places, on both sides and at its distance, adds over the length that it covers, a pitch or what of
 * it lies along the neck:
 *
 *     C / C0 = 1 + Σ (covered / length) ½ (C_channel / C0 − 1), and L the same,
 *
 * which gives the full channel where all places are taken, and nothing where none is. Impedance and speed follow from
 * the mean L and C, as the pitch is short against the wavelength. Applied to the line's own value as a ratio, so that
 * the error of the field solutions that both have in common drops out.
 *
 * Cuts taken as extruded overstate the fall of C by a round opening and understate the rise of L; in Z both nearly
 * make up for each other (a small hole after H. A. Bethe, Theory of diffraction by small holes, Physical Review 66,
 * 1944: by 5 % of the change; from memory), in the delay they do not: trust the impedance more. A pad beside an opening
 * understates the rise of L further, as an extruded pad carries current along the line and a round one does not.
 *
 * Null where nothing stands beside it. Where something there leaves no room in the solution, the line counts as if
 * nothing stood there, with a band as wide as such places have ever moved one.
 */
export function amongVias(board: Board, line: LineImpedance, passage: Passage): LoadedLine | null {
  const { length, beside } = passage
  if (beside.length === 0 || !(length > 0)) return null
  let [capacitance, inductance, error] = [1, 1, RATIO_ERROR]
  const effects = effectsOn(board, line)
  for (const place of beside) {
    const effect = effects(place)
    if (effect === null) return unsolved(line)
    const share = place.covers / length / 2
    capacitance += share * effect.capacitance
    inductance += share * effect.inductance
    error += share * effect.error
  }
  if (!(capacitance > 0 && inductance > 0)) return unsolved(line)
  const ratio = Math.sqrt(inductance / capacitance)
  const effectivePermittivity = line.effectivePermittivity * capacitance * inductance
  return {
    impedance: line.impedance * ratio,
    effectivePermittivity,
    delay: Math.sqrt(effectivePermittivity) / SPEED_OF_LIGHT,
    band: line.chosen.claimedError + error,
    ratio,
  }
}

/** What a full channel of places adds to a line, and how far off that may be. */
interface Effect extends Loading {
  readonly error: Ratio
}

/** Effects of places on a line, each found once: hundreds of necks run on one line, past places that are mostly alike. */
function effectsOn(board: Board, line: LineImpedance): (place: BesideNeck) => Effect | null {
  const { stackup, vias } = board
  let answers = known.get(line)
  if (answers?.stackup !== stackup || answers.vias !== vias) {
    answers = { stackup, vias, effects: new Map() }
    known.set(line, answers)
  }
  const { effects } = answers
  return (place) => {
    const { distance, pitch, pitchAcross, via, pad, barrel, supply } = place
    const key = JSON.stringify([distance, pitch, pitchAcross, via, pad, barrel, supply])
    const effect = effects.get(key)
    if (effect !== undefined) return effect
    const found = effectOf(board, line, place)
    effects.set(key, found)
    return found
  }
}

interface Answers extends Pick<Board, 'stackup' | 'vias'> {
  readonly effects: Map<string, Effect | null>
}

const known = new WeakMap<LineImpedance, Answers>()

function effectOf(board: Board, line: LineImpedance, place: BesideNeck): Effect | null {
  const loading = loadingAt(board, line, place)
  if (loading === null) return null
  const change = (Math.abs(loading.inductance) + Math.abs(loading.capacitance)) / 2
  return { ...loading, error: errorOf(board, line, place, change) }
}

function unsolved({ impedance, effectivePermittivity, delay, chosen }: LineImpedance): LoadedLine {
  return { impedance, effectivePermittivity, delay, band: chosen.claimedError + UNSOLVED_ERROR, ratio: 1 }
}

const UNSOLVED_ERROR: Ratio = 0.3
/** Of the field solutions of the ratio against finer ones, and of the places that are too far away to be counted. */
const RATIO_ERROR: Ratio = 0.005
/**
 * Of the changes themselves: that halves of channels are added up, and what is read between two distances. By finite
 * elements the halves err by up to 7 % of the change, and by up to 35 % where an opening takes the plane away from under
 * the middle of the line, so that both sides no longer act apart (reference/field/besideVias.json).
 */
const SHARE_ERROR: Ratio = 0.1
const OPEN_SHARE_ERROR: Ratio = 0.4
/**
 * Where a pad stands in the layer of the line beside an opening. Both are extruded in the cuts; near the line their
 * changes nearly cancel, which hides what they miss: in three dimensions the impedance of a full channel is up to 1.5 %
 * off (finite volumes of one via cell, a dozen channels of 0.5 to 0.8 mm pitch; tests/impedance/amongVias.test.ts).
 */
const PAD_SHARE_ERROR: Ratio = 0.25
const NEAR_PAD_ERROR: Ratio = 0.005

/** Of a full channel of such places that change the line by `change`. */
function errorOf(board: Board, { section }: LineImpedance, place: BesideNeck, change: Ratio): Ratio {
  const { planeBelow, planeAbove } = surroundingsOf(board.stackup, board.vias, section, place)
  /** Some opening comes as near to the middle of the line. */
  const opensWithin = (below: Metres, above: Metres): boolean =>
    reaches(planeBelow, place.distance - below) || reaches(planeAbove, place.distance - above)
  if (opensWithin(0, 0)) return OPEN_SHARE_ERROR * change + (place.pad === null ? 0 : NEAR_PAD_ERROR)
  if (place.pad === null || !opensWithin(place.distance, place.distance)) return SHARE_ERROR * change
  const near = opensWithin(heightOf(section.below), heightOf(section.above))
  return PAD_SHARE_ERROR * change + (near ? NEAR_PAD_ERROR : 0)
}

function reaches(plane: PerforatedPlane | null, radius: Metres): boolean {
  const antipad = plane?.antipad ?? null
  return antipad !== null && antipad / 2 >= radius
}

const heightOf = (sheets: readonly DielectricSheet[]): Metres =>
  sheets.reduce((sum, { thickness }) => sum + thickness, 0)

/**
 * Distances, as shares of the pitch across the neck, at which the channel is solved: the middle of a channel and a
 * diagonal among them. The loading falls nearly exponentially between them, and is nothing at the last.
 */
const KNOTS: readonly Ratio[] = [0.25, 0.3, 0.35, 0.4, 0.45, 0.5, Math.SQRT1_2, 1]
const ON_KNOT: Ratio = 0.004

function loadingAt(board: Board, line: LineImpedance, place: BesideNeck): Loading | null {
  const solved = (distance: Metres): Loading | null =>
    channelLoading(
      line.section,
      line.frequency,
      surroundingsOf(board.stackup, board.vias, line.section, { ...place, distance }),
    )
  const at = place.distance / place.pitchAcross
  const [first = 0, last = 1] = [KNOTS[0], KNOTS.at(-1)]
  if (at >= last) return NONE
  const near = KNOTS.find((knot) => Math.abs(knot - at) <= ON_KNOT)
  if (near !== undefined) return solved(near * place.pitchAcross)
  if (at < first) return solved(place.distance)
  const above = KNOTS.findIndex((knot) => knot > at)
  const [low = 0, high = 1] = [KNOTS[above - 1], KNOTS[above]]
  const nearer = solved(low * place.pitchAcross)
  // Where the nearer distance leaves no room, the true one may.
  if (nearer === null) return solved(place.distance)
  const farther = high === last ? NONE : solved(high * place.pitchAcross)
  const share = (at - low) / (high - low)
  return (
    farther && {
      capacitance: between(nearer.capacitance, farther.capacitance, share),
      inductance: between(nearer.inductance, farther.inductance, share),
    }
  )
}

const NONE: Loading = { capacitance: 0, inductance: 0 }

/** The logarithm of the factor falls exponentially where both ends have one sign, else it is taken as straight. */
function between(nearer: Ratio, farther: Ratio, share: Ratio): Ratio {
  const [from, to] = [Math.log1p(nearer), Math.log1p(farther)]
  return Math.expm1(from * to > 0 ? from * (to / from) ** share : from + share * (to - from))
}
