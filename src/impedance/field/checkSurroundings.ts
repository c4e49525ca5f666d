import type { CrossSection } from '../../section/crossSection.ts'
import type { PerforatedPlane, Surroundings } from '../../section/surroundings.ts'
import type { Metres } from '../../units/quantity.ts'
import { checkLength } from './checkSection.ts'

/**
 * Refuses surroundings that are no picture about a section: lengths not above 0, openings no wider than what passes
 * through them, barrels or pads that reach the copper in the channel or each other, a plane that the section lacks.
 *
 * Throws RangeError with the values and their unit.
 */
export function checkSurroundings(section: CrossSection, surroundings: Surroundings): void {
  const { viaPitch, halfChannel, barrel, pad, planeBelow, planeAbove } = surroundings
  checkLength('via pitch', viaPitch)
  checkLength('distance to the via centres', halfChannel)
  if (barrel !== null) checkLength('barrel diameter', barrel)
  if (pad !== null) checkLength('pad diameter', pad)
  checkPlane('below', planeBelow, surroundings)
  if (planeAbove !== null) checkPlane('above', planeAbove, surroundings)
  if ((planeAbove === null) !== (section.planeAbove === null)) {
    throw new RangeError('surroundings and section must both have a plane above, or neither')
  }
  if (surroundings.grounded) checkRoom(section, surroundings)
}

function checkPlane(
  side: string,
  { antipad, thickness, behind }: PerforatedPlane,
  { barrel }: Surroundings,
): void {
  checkLength(`thickness of the plane ${side}`, thickness)
  if (behind !== null) checkLength(`distance to the plane behind the one ${side}`, behind)
  if (antipad === null) return
  checkLength(`antipad of the plane ${side}`, antipad)
  if (barrel !== null && !(antipad > barrel)) {
    throw new RangeError(
      `antipad of ${antipad} m in the plane ${side} leaves no room for a barrel of ${barrel} m`,
    )
  }
}

function checkRoom(section: CrossSection, { halfChannel, viaPitch, barrel, pad }: Surroundings): void {
  const copper: Metres =
    (section.gap ?? 0) / 2 + (section.gap === null ? section.trace.width / 2 : section.trace.width)
  const widest = Math.max(barrel ?? 0, pad ?? 0)
  if (!(halfChannel - widest / 2 > copper)) {
    throw new RangeError(
      `a via ${widest} m wide, ${halfChannel} m from the middle of the channel, reaches copper that is ${copper} m from it`,
    )
  }
  if (section.coplanarGap !== null) {
    throw new RangeError(
      `ground in the trace's layer, ${section.coplanarGap} m from it, leaves no room for grounded vias`,
    )
  }
  if (barrel !== null && !(viaPitch > barrel))
    throw new RangeError(`barrels of ${barrel} m, ${viaPitch} m apart, run into each other`)
}
