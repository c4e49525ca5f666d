/**
 * Moves labels along one direction so that neighbours stand at least `spacing` apart, each as near to its wish
 * as the order allows: blocks that overlap are merged and centred on the mean of their wishes.
 *
 * The result has the order of `wished`, which must rise; all of it lies between `low` and `high` where there is room.
 * Throws RangeError when the wishes fall or the spacing is negative.
 */
export function spreadLabels(
  wished: readonly number[],
  spacing: number,
  low: number,
  high: number,
): number[] {
  if (!(spacing >= 0)) throw new RangeError(`label spacing must not be negative, got ${spacing}`)
  interface Block {
    count: number
    start: number
    /** Sum over the block of (wish − index × spacing). */
    sum: number
  }
  const blocks: Block[] = []
  wished.forEach((wish, index) => {
    if (index > 0 && wish < (wished[index - 1] ?? wish)) throw new RangeError('label wishes must rise')
    let block: Block = { count: 1, start: wish, sum: wish }
    for (let before = blocks.at(-1); before !== undefined; before = blocks.at(-1)) {
      if (before.start + before.count * spacing <= block.start) break
      blocks.pop()
      const sum = before.sum + block.sum - block.count * before.count * spacing
      const count = before.count + block.count
      block = { count, sum, start: sum / count }
    }
    blocks.push(block)
  })
  const places = blocks.flatMap(({ count, start }) =>
    Array.from({ length: count }, (_, index) => start + index * spacing),
  )
  return keepBetween(places, spacing, low, high)
}

function keepBetween(places: readonly number[], spacing: number, low: number, high: number): number[] {
  const result = [...places]
  for (let index = result.length - 1, limit = high; index >= 0; index--, limit -= spacing) {
    result[index] = Math.min(result[index] ?? limit, limit)
  }
  for (let index = 0, limit = low; index < result.length; index++, limit += spacing) {
    result[index] = Math.max(result[index] ?? limit, limit)
  }
  return result
}
