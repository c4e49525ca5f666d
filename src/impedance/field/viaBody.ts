import type { Metres, Point } from '../../units/quantity.ts'
import type { Body } from './picture.ts'
import { GROUNDED } from './wall.ts'

export interface ViaCut {
  /** Of the via, across the channel. */
  readonly middle: Metres
  /** Widths in the cut; 0 where it misses the barrel or the pad. */
  readonly barrel: Metres
  readonly pad: Metres
  /** Faces of the pad. */
  readonly low: Metres
  readonly high: Metres
  /** Upper end of the barrel, at `high` or above; its lower end is the plane at y = 0. */
  readonly end: Metres
}

/** A grounded via in a cut: a barrel through a pad, the pad alone, or the barrel alone where the pad is not wider. */
export function viaBody(cut: ViaCut): Body {
  return { conductor: GROUNDED, outline: outlineOf(cut) }
}

function outlineOf({ middle, barrel, pad, low, high, end }: ViaCut): Point[] {
  const rectangle = (width: Metres, from: Metres, to: Metres): Point[] => [
    { x: middle - width / 2, y: from },
    { x: middle - width / 2, y: to },
    { x: middle + width / 2, y: to },
    { x: middle + width / 2, y: from },
  ]
  if (barrel === 0) return rectangle(pad, low, high)
  const [lowLeft, highLeft, highRight, lowRight] = [
    { x: middle - barrel / 2, y: 0 },
    { x: middle - barrel / 2, y: end },
    { x: middle + barrel / 2, y: end },
    { x: middle + barrel / 2, y: 0 },
  ]
  // A barrel without a pad is divided where the pad would be all the same: its charge gathers there.
  const shoulders = pad > barrel ? rectangle(pad, low, high) : []
  const [padLowLeft, padHighLeft, padHighRight, padLowRight] = shoulders
  const head = end > high ? [highLeft, highRight] : []
  return [
    lowLeft,
    { ...lowLeft, y: low },
    padLowLeft,
    padHighLeft,
    { ...highLeft, y: high },
    ...head,
    { ...highRight, y: high },
    padHighRight,
    padLowRight,
    { ...lowRight, y: low },
    lowRight,
  ].filter((point) => point !== undefined)
}
