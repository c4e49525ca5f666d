/**
 * The fewest signal layers on which any plan can let all balls out; null where even all layers together do not.
 *
 * `atMost` bounds, for each layer that signals may use, how many leave there. A plan on m layers lets out no more
 * than the sum over these m, which is no more than the sum of the m largest. So the order of the layers does not
 * matter, and the answer holds for every plan as long as each bound does: it must be computed with all signal balls
 * waiting, and with only those obstacles that no plan can avoid (lands on the layer of the lands; vias of supplies
 * where they have to stand), their smallest reach, and the finest trace.
 *
 * Throws RangeError unless all numbers are whole and ≥ 0.
 */
export function atLeastLayers(signals: number, atMost: readonly number[]): number | null {
  for (const count of [signals, ...atMost]) {
    if (!(Number.isSafeInteger(count) && count >= 0)) {
      throw new RangeError(`layers are counted from whole numbers ≥ 0, got ${count}`)
    }
  }
  let left = signals
  let layers = 0
  for (const most of [...atMost].sort((a, b) => b - a)) {
    if (left <= 0) break
    left -= most
    layers += 1
  }
  return left <= 0 ? layers : null
}
