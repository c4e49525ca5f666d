import type { Metres } from '../../units/quantity.ts'

/**
 * Section of an etched strip: its foot lies on the laminate it was bonded to, its top is narrower. The functions of
 * this file give the width of the rectangle of the same thickness that stands for it. Common practice is the mean
 * width, the rectangle of equal area; that is up to 10 % off on the surface, where the field crowds at the foot.
 *
 * Source: own fits, this project, to a boundary-element solution with side walls that each take up to half the
 * copper thickness; what the replacement costs is stated with the formulas that use it.
 */
export interface Trapezoid {
  readonly foot: Metres
  readonly top: Metres
}

/** Surface microstrip, bare or coated: 3/4 of the foot, 1/4 of the top. Foot on the substrate. */
export function surfaceEquivalentWidth({ foot, top }: Trapezoid): Metres {
  return blend(foot, top, 0.75)
}

/** Strip under a flat cover. With the foot towards the plane 0.65 of it count, with the foot away from it 0.45. */
export function embeddedEquivalentWidth({ foot, top }: Trapezoid, footSide: 'below' | 'above'): Metres {
  return blend(foot, top, footSide === 'below' ? 0.65 : 0.45)
}

/**
 * Stripline, foot towards the lower plane. Midway 0.57 of the foot count; the nearer the lower plane, the more,
 * the nearer the upper one, the less: 0.57 + 0.15 (above − below)/(above + below), without a jump anywhere.
 */
export function striplineEquivalentWidth({ foot, top }: Trapezoid, below: Metres, above: Metres): Metres {
  if (!(below > 0 && above > 0)) {
    throw new RangeError(`stripline needs distances > 0, got ${below} m and ${above} m`)
  }
  return blend(foot, top, 0.57 + (0.15 * (above - below)) / (above + below))
}

/** Coplanar line: 0.7 of the foot; the gap grows by what the two facing feet lose, foot less equivalent width. */
export function coplanarEquivalentWidth({ foot, top }: Trapezoid): Metres {
  return blend(foot, top, 0.7)
}

function blend(foot: Metres, top: Metres, share: number): Metres {
  if (!(foot > 0 && top > 0)) throw new RangeError(`trapezoid needs widths > 0, got ${foot} m and ${top} m`)
  return share * foot + (1 - share) * top
}
