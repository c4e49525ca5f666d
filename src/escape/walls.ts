import type { Metres, Point } from '../units/quantity.ts'
import type { Side } from './side.ts'

/**
 * How far what stands on a layer reaches into the way of a straight trace, seen from one side.
 *
 * `left(line, depth)`: the rightmost point that any obstacle on `line` or a line to its left, at a depth
 * less than `depth`, keeps a trace edge from; −Infinity where none stands. `right` is its mirror image.
 */
export interface Walls {
  left(line: number, depth: number): Metres
  right(line: number, depth: number): Metres
}

export function wallsOf(side: Side, sites: readonly Point[], reach: readonly Metres[]): Walls {
  const { lines, depths } = side
  const left = new Float64Array((depths + 1) * lines).fill(-Infinity)
  const right = new Float64Array((depths + 1) * lines).fill(Infinity)
  const leftAt = (line: number, depth: number): Metres =>
    line < 0 ? -Infinity : (left[depth * lines + line] ?? -Infinity)
  const rightAt = (line: number, depth: number): Metres =>
    line >= lines ? Infinity : (right[depth * lines + line] ?? Infinity)
  for (let depth = 1; depth <= depths; depth += 1) {
    for (let line = 0; line < lines; line += 1) {
      const edge = edgesAt(side, sites, reach, line, depth - 1)
      left[depth * lines + line] = Math.max(edge.right, leftAt(line, depth - 1), leftAt(line - 1, depth))
    }
    for (let line = lines - 1; line >= 0; line -= 1) {
      const edge = edgesAt(side, sites, reach, line, depth - 1)
      right[depth * lines + line] = Math.min(edge.left, rightAt(line, depth - 1), rightAt(line + 1, depth))
    }
  }
  return { left: leftAt, right: rightAt }
}

const NOTHING = { left: Infinity, right: -Infinity }

function edgesAt(
  side: Side,
  sites: readonly Point[],
  reach: readonly Metres[],
  line: number,
  depth: number,
): { left: Metres; right: Metres } {
  const ball = side.ballAt(line, depth)
  const site = sites[ball]
  const distance = reach[ball] ?? 0
  if (site === undefined || distance === 0) return NOTHING
  const along = side.along(site)
  return { left: along - distance, right: along + distance }
}
