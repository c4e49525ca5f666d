import type { CrossSection, DielectricSheet } from '../../section/crossSection.ts'
import type { Metres } from '../../units/quantity.ts'

/** A stretch of the plane of a cross-section, from the lower plane's face upwards and about the axis. */
export interface PictureWindow {
  readonly halfWidth: Metres
  readonly bottom: Metres
  readonly top: Metres
  /** Whether it ends at a plane, or short of one that lies beyond; above, false where there is none. */
  readonly endsAtPlane: { readonly below: boolean; readonly above: boolean }
}

/** How far beyond the traces the field is shown: so many distances to the nearer plane, */
const SPREAD = 2
/** but no more of these half widths of what is in the layer, lest it shrink to a dot. */
const CROWD = 3
/** How far into the air, in distances to the plane. */
const OPEN = 1.2
/** A plane up to so many half widths of the window away is shown, */
const WITHIN = 1.5
/** and of the way to one beyond, this much. */
const TALLEST = 0.9

/**
 * As much of a cross-section as shows its traces at a good size and the field to the nearer plane whole. A
 * plane that is much farther away lies outside.
 */
export function pictureWindow(section: CrossSection): PictureWindow {
  const { trace, gap, coplanarGap, broadside, mask, planeAbove } = section
  const below = heightOf(section.below)
  const above = heightOf(section.above)
  const copper = below + trace.thickness
  const highest = broadside === null ? copper : copper + heightOf(broadside.sheets) + trace.thickness
  const edge = gap === null ? trace.width / 2 : trace.width + gap / 2
  const reach = coplanarGap === null ? edge : edge + coplanarGap + trace.width
  const near = planeAbove === null ? below : Math.min(below, above)
  // Beyond the edge of coplanar ground there is little field to show.
  const halfWidth = coplanarGap === null ? reach + Math.min(SPREAD * near, CROWD * reach) : reach
  const shown = (way: Metres): Metres => (way > WITHIN * halfWidth ? TALLEST * halfWidth : way)
  const coat = mask === null ? 0 : Math.max(mask.overTrace, mask.overLaminate)
  const lid = highest + above
  // Into the air, or as far as the plane above is shown.
  const open = coat + Math.min(OPEN * near, (TALLEST / 2) * halfWidth)
  const endsAtPlane = { below: shown(below) === below, above: planeAbove !== null && shown(above) === above }
  return {
    halfWidth,
    bottom: below - shown(below),
    top: planeAbove === null ? lid + open : highest + shown(above),
    endsAtPlane,
  }
}

function heightOf(sheets: readonly DielectricSheet[]): Metres {
  return sheets.reduce((sum, sheet) => sum + sheet.thickness, 0)
}
