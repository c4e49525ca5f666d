import { contours } from 'd3-contour'
import { simplifyPolyline } from '../../numerics/simplifyPolyline.ts'
import type { Metres, Point, Ratio } from '../../units/quantity.ts'

/** Values at the crossings of upright and level lines, row by row from the lowest. */
export interface FieldGrid {
  /** Rising. */
  readonly xs: readonly Metres[]
  readonly ys: readonly Metres[]
  readonly values: readonly number[]
}

/** One unbroken line of equal potential. A closed one ends where it began. */
export interface Equipotential {
  readonly level: Ratio
  readonly points: readonly Point[]
}

/**
 * Lines along which a grid of values has the given levels, by marching squares with straight interpolation,
 * thinned to `tolerance`. They end at the edge of the grid. Kinks of the field are met exactly where lines
 * of the grid run along them.
 *
 * Throws RangeError when the grid has fewer than two lines either way, or not a value for each crossing.
 */
export function equipotentials(
  { xs, ys, values }: FieldGrid,
  levels: readonly Ratio[],
  tolerance: Metres,
): Equipotential[] {
  if (xs.length < 2 || ys.length < 2 || values.length !== xs.length * ys.length) {
    throw new RangeError(`${xs.length} × ${ys.length} grid lines do not carry ${values.length} values`)
  }
  const trace = contours().size([xs.length, ys.length])
  const placeOf = ([x = 0, y = 0]: readonly number[]): Point => ({ x: lineAt(xs, x), y: lineAt(ys, y) })
  return levels.flatMap((level) =>
    trace
      .contour([...values], level)
      .coordinates.flat()
      .flatMap((ring) => insideParts(ring, xs.length, ys.length))
      .map((part) => ({ level, points: simplifyPolyline(part.map(placeOf), tolerance) })),
  )
}

/** Element i of a row lies at i + ½. */
function lineAt(lines: readonly Metres[], place: number): Metres {
  const last = lines.length - 2
  const index = Math.min(Math.max(Math.floor(place - 0.5), 0), last)
  const [low = 0, high = 0] = [lines[index], lines[index + 1]]
  return low + (high - low) * (place - 0.5 - index)
}

/** Rings run closed round the area above a level, along the frame outside the grid too: that is no line. */
function insideParts(ring: readonly number[][], columns: number, rows: number): number[][][] {
  const isInside = ([x = 0, y = 0]: readonly number[]): boolean => x > 0 && x < columns && y > 0 && y < rows
  const outside = ring.findIndex((place) => !isInside(place))
  if (outside < 0) return [[...ring]]
  // The last point of a ring is its first again.
  const turned = [...ring.slice(outside, -1), ...ring.slice(0, outside)]
  const parts: number[][][] = [[]]
  for (const place of turned) {
    if (isInside(place)) parts.at(-1)?.push(place)
    else if (parts.at(-1)?.length !== 0) parts.push([])
  }
  return parts.filter((part) => part.length > 1)
}
