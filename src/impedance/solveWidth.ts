import type { Stackup } from '../board/stackup.ts'
import { guidedRoot } from '../numerics/guidedRoot.ts'
import type { CrossSection, LineRequest } from '../section/crossSection.ts'
import { deriveSection } from '../section/deriveSection.ts'
import type { Hertz, Metres, Ohms, Ratio } from '../units/quantity.ts'
import type { LineImpedance } from './estimate.ts'
import { chosenEstimate, closedFormNear, estimateLine, verdictImpedance } from './estimateLine.ts'

export interface SolvedWidth {
  readonly width: Metres
  readonly impedance: LineImpedance
}

/** Narrowest and widest trace worth proposing; the side walls may ask for more than the narrowest. */
const NARROWEST: Metres = 20e-6
const WIDEST: Metres = 3e-3
/** Of the narrowest: where the closed form that guides the search is picked. */
const TYPICAL = 4
/** Miss of the target at which a width is found: half of the least error band. */
const CLOSE: Ratio = 5e-4

/**
 * `widthFor` with the line that it makes.
 *
 * Throws as `widthFor` does.
 */
export function solveWidth(
  stackup: Stackup,
  request: LineRequest,
  target: Ohms,
  frequency: Hertz,
): SolvedWidth | null {
  const width = widthFor(stackup, request, target, frequency)
  if (width === null) return null
  return { width, impedance: estimateLine(deriveSection(stackup, { ...request, width }), frequency) }
}

/**
 * Finished foot width at which the line meets the target impedance (differential for a pair), everything
 * else as requested; `request.width` is not used.
 *
 * Null when no width from 20 um (or where the side walls meet) to 3 mm meets it.
 * Throws RangeError for what `deriveSection` refuses.
 */
export function widthFor(
  stackup: Stackup,
  request: LineRequest,
  target: Ohms,
  frequency: Hertz,
): Metres | null {
  if (!(target > 0)) throw new RangeError(`target impedance must be above 0, got ${target} ohm`)
  const sectionAt = (width: Metres): CrossSection => deriveSection(stackup, { ...request, width })
  const narrowest = narrowestWidth(stackup, request.layer)
  const closedForm = closedFormNear(sectionAt(TYPICAL * narrowest), frequency)
  const quick = (width: Metres): Ohms => verdictImpedance(closedForm(sectionAt(width)).modes)
  const best = (width: Metres): Ohms => verdictImpedance(chosenEstimate(sectionAt(width), frequency).modes)
  // Impedance falls as the trace widens.
  if (quick(narrowest) < target || quick(WIDEST) > target) return null
  return guidedRoot(best, quick, target, [narrowest, WIDEST], { tolerance: CLOSE })
}

function narrowestWidth(stackup: Stackup, layerNumber: number): Metres {
  const layer = stackup.copper[layerNumber - 1]
  // Half as wide again as where the side walls meet, so that a top is left.
  return layer === undefined ? NARROWEST : Math.max(NARROWEST, 3 * layer.sidewallSlope * layer.thickness)
}
