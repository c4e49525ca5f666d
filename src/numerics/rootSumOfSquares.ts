/** The least and the greatest of what may be. */
export interface Range {
  readonly lowest: number
  readonly highest: number
}

/** What one input does by itself at either end of its own range. */
export interface Excursions {
  readonly atLower: number
  readonly atUpper: number
}

/**
 * Excursions of inputs that err apart from each other, together: root sum of squares on either side, as an input may act
 * unlike on both.
 *
 * Source: the law of propagation of uncertainty without correlation, JCGM 100:2008 (GUM), 5.1.2, equation (10), with
 * excursions in place of derivatives times standard uncertainties.
 */
export function rootSumOfSquares(inputs: readonly Excursions[]): Range {
  let [below, above] = [0, 0]
  for (const { atLower, atUpper } of inputs) {
    below += Math.min(atLower, atUpper, 0) ** 2
    above += Math.max(atLower, atUpper, 0) ** 2
  }
  return { lowest: 0 - Math.sqrt(below), highest: Math.sqrt(above) }
}
