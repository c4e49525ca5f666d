/** A straight centre line between two points of a whole-number grid; one point where both ends are the same. */
export interface Segment {
  readonly ax: number
  readonly ay: number
  readonly bx: number
  readonly by: number
}

/**
 * Bound on the rounding of a squared distance, relative to the squares it is made of. With D along the line, E from
 * its start to the point, both exact, and unit round-off u = 2⁻⁵³, their cross product is off by at most 3u |D| |E|,
 * and its square over |D|² by less than 12u |E|²; 2⁻⁴⁶ = 128u leaves room for the rest.
 * Derived; the method of error bounds is that of J. R. Shewchuk, Adaptive precision floating-point arithmetic and fast
 * robust geometric predicates, Discrete & Computational Geometry 18, 1997, pp. 305–363.
 */
const SQUARE_ERROR = 2 ** -46

/**
 * True where two centre lines come strictly nearer to each other than `limit`, a whole number: exact. Floating
 * point decides where its error bound allows, integers of any size where it does not. Unless the
 * two cross, the shortest way starts at one of the four ends.
 */
export function isNearer(one: Segment, other: Segment, limit: number): boolean {
  return (
    isPointNearer(one.ax, one.ay, other, limit) ||
    isPointNearer(one.bx, one.by, other, limit) ||
    isPointNearer(other.ax, other.ay, one, limit) ||
    isPointNearer(other.bx, other.by, one, limit) ||
    (limit > 0 && cross(one, other))
  )
}

/** The same for a line and a filled rectangle, whose `a` is the low corner and whose `b` is the high one. */
export function isNearerToRectangle(line: Segment, rectangle: Segment, limit: number): boolean {
  const { ax, ay, bx, by } = rectangle
  if (limit > 0 && (isInside(line.ax, line.ay, rectangle) || isInside(line.bx, line.by, rectangle)))
    return true
  return (
    isNearer(line, { ax, ay, bx, by: ay }, limit) ||
    isNearer(line, { ax: bx, ay, bx, by }, limit) ||
    isNearer(line, { ax, ay: by, bx, by }, limit) ||
    isNearer(line, { ax, ay, bx: ax, by }, limit)
  )
}

export function isInside(x: number, y: number, rectangle: Segment): boolean {
  return x >= rectangle.ax && x <= rectangle.bx && y >= rectangle.ay && y <= rectangle.by
}

function isPointNearer(x: number, y: number, line: Segment, limit: number): boolean {
  const dx = line.bx - line.ax
  const dy = line.by - line.ay
  const ex = x - line.ax
  const ey = y - line.ay
  const length = dx * dx + dy * dy
  const along = dx * ex + dy * ey
  const fromStart = ex * ex + ey * ey
  let squared = fromStart
  if (length > 0 && along >= length) {
    squared = (x - line.bx) ** 2 + (y - line.by) ** 2
  } else if (along > 0) {
    const turn = dx * ey - dy * ex
    squared = (turn * turn) / length
  }
  const short = limit * limit - squared
  const error = SQUARE_ERROR * (length + fromStart + limit * limit)
  return Math.abs(short) > error ? short > 0 : isPointNearerExactly(dx, dy, ex, ey, limit)
}

/** With D along the line and E from its start to the point: beside the line, distance · |D| is their cross product. */
function isPointNearerExactly(dx: number, dy: number, ex: number, ey: number, limit: number): boolean {
  const [wideDx, wideDy, wideEx, wideEy] = [BigInt(dx), BigInt(dy), BigInt(ex), BigInt(ey)]
  const reach = BigInt(limit) ** 2n
  const length = wideDx * wideDx + wideDy * wideDy
  const along = wideDx * wideEx + wideDy * wideEy
  if (along <= 0n) return wideEx * wideEx + wideEy * wideEy < reach
  if (along >= length) return (wideEx - wideDx) ** 2n + (wideEy - wideDy) ** 2n < reach
  return (wideDx * wideEy - wideDy * wideEx) ** 2n < reach * length
}

/**
 * True where the inner parts of two lines cross in one point; where they touch, an end of one lies on the other.
 *
 * Floating point is enough. Products of whole numbers round in their own order, so a turn has the right sign or is 0; wrongly 0
 * only where an end lies nearer than one step to the other line. If the two cross, that end, or the end of
 * the other line that it lies beyond, is nearer than one step to the other line's inside: the four ends have told.
 */
function cross(one: Segment, other: Segment): boolean {
  return (
    turn(one, other.ax, other.ay) * turn(one, other.bx, other.by) < 0 &&
    turn(other, one.ax, one.ay) * turn(other, one.bx, one.by) < 0
  )
}

/** Sign of the turn from the line towards a point: 1 to the left, −1 to the right, 0 on the line. */
function turn(line: Segment, x: number, y: number): number {
  return Math.sign((line.bx - line.ax) * (y - line.ay) - (line.by - line.ay) * (x - line.ax))
}
