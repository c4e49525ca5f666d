import type { Place } from '../../charts/marks.ts'
import type { FieldPicture } from '../../impedance/field/fieldPicture.ts'
import type { Metres, Point } from '../../units/quantity.ts'

/** The drawn part of a section, in user units: as wide as a telephone shows without scrolling. */
export const FIELD = { left: 10, right: 346, top: 46 }
/** Height that a plane is drawn with: it stands for any thickness. */
export const PLANE_HEIGHT = 12

/** One scale in both directions, and the section the way it lies in the board. */
export interface LineSectionPlaces {
  /** User units per metre. */
  readonly scale: number
  readonly place: (point: Point) => Place
  readonly y: (height: Metres) => number
  /** Upper and lower edge of the window in the drawing. */
  readonly top: number
  readonly bottom: number
}

export function lineSectionPlaces(
  { halfWidth, bottom, top }: FieldPicture['window'],
  upsideDown: boolean,
): LineSectionPlaces {
  const scale = (FIELD.right - FIELD.left) / (2 * halfWidth)
  const start = FIELD.top + PLANE_HEIGHT
  const y = (height: Metres): number => start + (upsideDown ? height - bottom : top - height) * scale
  return {
    scale,
    y,
    place: (point) => ({ x: (FIELD.left + FIELD.right) / 2 + point.x * scale, y: y(point.y) }),
    top: start,
    bottom: start + (top - bottom) * scale,
  }
}
