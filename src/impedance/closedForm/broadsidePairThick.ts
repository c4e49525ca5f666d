import type { Metres, Ratio } from '../../units/quantity.ts'
import { broadsidePairCohn } from './broadsidePairCohn.ts'
import type { Limit } from './limits.ts'
import { offsetEquivalentSpacing } from './offsetEquivalentSpacing.ts'
import type { PairImpedances } from './striplinePair.ts'
import { striplineWidening } from './striplineWheeler.ts'

/** Two thick strips face to face, each as far from its own plane. */
export interface ThickBroadsidePair {
  readonly width: Metres
  readonly thickness: Metres
  /** Between the facing surfaces of the strips. */
  readonly separation: Metres
  /** From each strip to its own plane. */
  readonly toPlane: Metres
  readonly relativePermittivity: Ratio
}

/**
 * Broadside-coupled pair with thickness:
 *
 *     odd:  offset line (equivalent spacing) between its plane and the virtual ground halfway, below = s/2, above = p
 *     even: thin pair of Cohn 1960 between planes 2p + s apart, widened by Wheeler's increment for that spacing
 *
 * Assumes: TEM, lossless, infinite planes, one dielectric, rectangular strips.
 * Own construction, this project; a boundary-element solution agrees within 3.4 % (odd) and 6.2 % (even, 3.9 % for w ≥ s).
 * The thin form unchanged would be up to 26 % high.
 * Source of the bases: S. B. Cohn, IRE Trans. MTT-8, 1960, pp. 633–637; H. A. Wheeler, IEEE Trans. MTT-26, 1978.
 */
export function broadsidePairThick(pair: ThickBroadsidePair): PairImpedances {
  const { width, thickness, separation, toPlane, relativePermittivity } = pair
  if (!(separation > 0 && toPlane > 0)) {
    throw new RangeError(
      `broadside pair needs separation > 0 and distance to plane > 0, got ${separation} m, ${toPlane} m`,
    )
  }
  const odd = offsetEquivalentSpacing({
    width,
    thickness,
    below: separation / 2,
    above: toPlane,
    relativePermittivity,
  })
  const spacing = 2 * toPlane + separation
  // Between planes this near the strips would touch: what is added to their width must stay finite all the same.
  const inside = Math.min(thickness, MOST_OF_SPACING * spacing)
  const widened = width + striplineWidening({ width, thickness: inside, spacing, relativePermittivity })
  return {
    odd,
    even: broadsidePairCohn({ width: widened, separation, spacing, relativePermittivity }).even,
  }
}

const MOST_OF_SPACING = 0.9

export const LIMITS: readonly Limit[] = [
  { quantity: 'width/separation', min: 0.35, max: 4 },
  { quantity: 'thickness/separation', min: 0, max: 1 },
]
