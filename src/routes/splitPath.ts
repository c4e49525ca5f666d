import { hypotenuse } from '../numerics/hypotenuse.ts'
import type { Metres, Point } from '../units/quantity.ts'
import { pathLength } from './pathLength.ts'

/**
 * A centre line in two: what comes before, and the last `length` of it. The point between them ends one and begins the
 * other. A length of 0 or less leaves the second empty, one of the whole line or more leaves the first empty.
 */
export function splitBeforeEnd(path: readonly Point[], length: Metres): [Point[], Point[]] {
  if (!(length > 0)) return [[...path], []]
  let before = pathLength(path) - length
  if (!(before > 0)) return [[], [...path]]
  for (const [index, to] of path.entries()) {
    const from = path[index - 1]
    if (from === undefined) continue
    const piece = hypotenuse(to.x - from.x, to.y - from.y)
    if (before >= piece) {
      before -= piece
      continue
    }
    const share = before / piece
    const at = { x: from.x + share * (to.x - from.x), y: from.y + share * (to.y - from.y) }
    const start = share > 0 ? [...path.slice(0, index), at] : path.slice(0, index)
    return [start, [at, ...path.slice(index)]]
  }
  return [[...path], []]
}
