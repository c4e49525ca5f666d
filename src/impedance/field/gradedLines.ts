import type { Metres, Ratio } from '../../units/quantity.ts'

/** From an edge on, each cell is longer than the one before by this factor. */
const GROWTH: Ratio = 1.9
/** Edges closer than this are one. */
const CLOSE: Metres = 1e-10

/**
 * Lines of a grid through all `edges`, with cells that begin `finest` long at each of them and grow away from it; between
 * `from` and `to`, where nothing has to be resolved.
 */
export function gradedLines(
  edges: readonly Metres[],
  { from, to }: { readonly from: Metres; readonly to: Metres },
  finest: Metres,
): Metres[] {
  const sorted = edges.toSorted((a, b) => a - b)
  const inner = sorted.filter((edge, index) => index === 0 || edge - (sorted[index - 1] ?? edge) > CLOSE)
  const [first = from, last = to] = [inner[0], inner.at(-1)]
  const lines = growing(first - from, finest)
    .map((step) => first - step)
    .reverse()
  for (const [index, edge] of inner.entries()) {
    lines.push(edge)
    const next = inner[index + 1]
    if (next === undefined) continue
    const half = (next - edge) / 2
    const steps = growing(half, Math.min(finest, half / 1.5))
    const inward = steps.slice(0, -1)
    lines.push(
      ...inward.map((step) => edge + step),
      edge + half,
      ...inward.map((step) => next - step).reverse(),
    )
  }
  return [...lines, ...growing(to - last, finest).map((step) => last + step)]
}

/** Distances that grow by a constant factor, the last of them `length`. */
function growing(length: Metres, finest: Metres): Metres[] {
  const steps: Metres[] = []
  let cell = finest
  for (let sum = 0; sum < length - CLOSE; cell *= GROWTH) {
    sum += cell
    steps.push(sum)
  }
  const stretch = length / (steps.at(-1) ?? length)
  return steps.map((step) => step * stretch)
}

/** Every cell cut in two. */
export function halved(lines: readonly Metres[]): Metres[] {
  return lines.flatMap((line, index) => {
    const next = lines[index + 1]
    return next === undefined ? [line] : [line, (line + next) / 2]
  })
}
