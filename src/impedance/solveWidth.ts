import type { Stackup } from '../board/stackup.ts'
import { bracketRoot } from '../numerics/bracketRoot.ts'
import { guidedRoot } from '../numerics/guidedRoot.ts'
import type { CrossSection, LineRequest } from '../section/crossSection.ts'
import { deriveSection } from '../section/deriveSection.ts'
import type { Hertz, Metres, Ohms, Ratio } from '../units/quantity.ts'
import type { LineImpedance } from './estimate.ts'
import { chosenEstimate, closedFormNear, estimateLine, valueNear, verdictImpedance } from './estimateLine.ts'

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
/** Far below what anybody can etch. */
const WIDTH_TOLERANCE: Metres = 1e-9

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
  checkTarget(target)
  const sectionAt = (width: Metres): CrossSection => deriveSection(stackup, { ...request, width })
  const narrowest = narrowestWidth(stackup, request.layer)
  const closedForm = closedFormNear(sectionAt(TYPICAL * narrowest), frequency)
  const quick = (width: Metres): Ohms => verdictImpedance(closedForm(sectionAt(width)))
  const best = (width: Metres): Ohms => verdictImpedance(chosenEstimate(sectionAt(width), frequency).modes)
  // Impedance falls as the trace widens.
  if (quick(narrowest) < target || quick(WIDEST) > target) return null
  const width = guidedRoot(best, quick, target, [narrowest, WIDEST], { tolerance: CLOSE })
  return width === null ? null : { width, impedance: estimateLine(sectionAt(width), frequency) }
}

/**
 * The same by the closed form, scaled to the chosen method at the width requested: for a trial that is drawn to a
 * grid and solved there anyway.
 *
 * Throws as `solveWidth` does.
 */
export function widthNear(
  stackup: Stackup,
  request: LineRequest,
  target: Ohms,
  frequency: Hertz,
): Metres | null {
  checkTarget(target)
  const sectionAt = (width: Metres): CrossSection => deriveSection(stackup, { ...request, width })
  const near = valueNear(sectionAt(request.width), frequency)
  const miss = (width: Metres): Ohms => near(sectionAt(width)).impedance - target
  const narrowest = narrowestWidth(stackup, request.layer)
  if (miss(narrowest) < 0 || miss(WIDEST) > 0) return null
  return bracketRoot(miss, narrowest, WIDEST, { tolerance: WIDTH_TOLERANCE })
}

function checkTarget(target: Ohms): void {
  if (!(target > 0)) throw new RangeError(`target impedance must be above 0, got ${target} ohm`)
}

function narrowestWidth(stackup: Stackup, layerNumber: number): Metres {
  const layer = stackup.copper[layerNumber - 1]
  // Half as wide again as where the side walls meet, so that a top is left.
  return layer === undefined ? NARROWEST : Math.max(NARROWEST, 3 * layer.sidewallSlope * layer.thickness)
}
