import type { Stackup } from '../board/stackup.ts'
import { bracketRoot } from '../numerics/bracketRoot.ts'
import type { CrossSection, LineRequest } from '../section/crossSection.ts'
import { deriveSection } from '../section/deriveSection.ts'
import type { Hertz, Metres, Ohms } from '../units/quantity.ts'
import type { LineImpedance } from './estimate.ts'
import { chosenEstimate, estimateLine, verdictImpedance } from './estimateLine.ts'

export interface SolvedWidth {
  readonly width: Metres
  readonly impedance: LineImpedance
}

/** Narrowest and widest trace worth proposing; the side walls may ask for more than the narrowest. */
const NARROWEST: Metres = 20e-6
const WIDEST: Metres = 3e-3
/** Far below what anybody can etch. */
const WIDTH_TOLERANCE: Metres = 1e-9
/** At the chooser's seams the impedance may jump; the width at the jump is then the answer, off by the jump. */
const LARGEST_JUMP = 0.03

/**
 * Finished foot width at which the line meets the target impedance (differential for a pair), everything
 * else as requested; `request.width` is not used.
 *
 * Null when no width from 20 um (or where the side walls meet) to 3 mm meets it.
 * Throws RangeError for what `deriveSection` refuses.
 */
export function solveWidth(
  stackup: Stackup,
  request: LineRequest,
  target: Ohms,
  frequency: Hertz,
): SolvedWidth | null {
  if (!(target > 0)) throw new RangeError(`target impedance must be above 0, got ${target} ohm`)
  const sectionAt = (width: Metres): CrossSection => deriveSection(stackup, { ...request, width })
  const impedanceAt = (width: Metres): Ohms =>
    verdictImpedance(chosenEstimate(sectionAt(width), frequency).modes)
  const narrowest = narrowestWidth(stackup, request.layer)
  // Impedance falls as the trace widens.
  if (impedanceAt(narrowest) < target || impedanceAt(WIDEST) > target) return null
  const width = bracketRoot((tried) => impedanceAt(tried) - target, narrowest, WIDEST, {
    tolerance: WIDTH_TOLERANCE,
  })
  const impedance = estimateLine(sectionAt(width), frequency)
  return Math.abs(impedance.impedance / target - 1) < LARGEST_JUMP ? { width, impedance } : null
}

function narrowestWidth(stackup: Stackup, layerNumber: number): Metres {
  const layer = stackup.copper[layerNumber - 1]
  // Half as wide again as where the side walls meet, so that a top is left.
  return layer === undefined ? NARROWEST : Math.max(NARROWEST, 3 * layer.sidewallSlope * layer.thickness)
}
