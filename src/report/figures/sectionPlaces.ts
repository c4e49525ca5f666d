/** Where the parts of a drawn cross-section stand, in user units. */
export const BODY = { left: 12, right: 262 }
export const MIDDLE = (BODY.left + BODY.right) / 2
export const TOP = 44
/** Height that a plane is drawn with: it stands for any thickness. */
export const PLANE = 12

/** Heights of the layout turned into places of the drawing, the way the board lies: top of the board up. */
export interface Upright {
  readonly y: (height: number) => number
  readonly bottom: number
}
