import type { Metres } from '../units/quantity.ts'

/**
 * Places along a line, in order, moved so that neighbours are at least so far apart: those whose sum of squared moves
 * is least. `apart[i]` is asked between place i and the next.
 *
 * With the distances asked taken off, what is left has only to rise: an isotonic regression, by pooling neighbours
 * that do not (M. Ayer, H. D. Brunk, G. M. Ewing, W. T. Reid, E. Silverman, An empirical distribution function for
 * sampling with incomplete information, Annals of Mathematical Statistics 26, 1955).
 *
 * Throws RangeError unless there is one distance fewer than places.
 */
export function spreadApart(places: readonly Metres[], apart: readonly Metres[]): Metres[] {
  if (apart.length !== Math.max(0, places.length - 1)) {
    throw new RangeError(
      `${places.length} places have ${places.length - 1} distances between them, got ${apart.length}`,
    )
  }
  let taken = 0
  const offsets = places.map((_, index) => (taken += index === 0 ? 0 : (apart[index - 1] ?? 0)))
  const pools: { mean: number; count: number }[] = []
  for (const [index, place] of places.entries()) {
    let pool = { mean: place - (offsets[index] ?? 0), count: 1 }
    for (let last = pools.at(-1); last !== undefined && last.mean > pool.mean; last = pools.at(-1)) {
      const count = last.count + pool.count
      pool = { mean: (last.mean * last.count + pool.mean * pool.count) / count, count }
      pools.pop()
    }
    pools.push(pool)
  }
  return pools
    .flatMap(({ mean, count }) => new Array<number>(count).fill(mean))
    .map((mean, index) => mean + (offsets[index] ?? 0))
}
