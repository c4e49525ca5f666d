import numeric from 'numeric'

/** A smooth curve through sampled points. */
export interface Curve {
  /** Value at `x`, which must lie inside the sampled range. */
  at(x: number): number
  /** Every abscissa at which the curve takes the value `level`, rising, without repeats. */
  crossings(level: number): number[]
}

/**
 * Natural cubic spline through the points (xs[i], ys[i]); xs strictly rising, at least three points.
 *
 * Error of order h⁴ inside and h² at the two ends, where the natural condition bends it.
 * Throws RangeError when the points are too few, not finite or not in order.
 */
export function splineThrough(xs: readonly number[], ys: readonly number[]): Curve {
  if (xs.length < 3 || xs.length !== ys.length) {
    throw new RangeError(
      `a spline needs at least 3 points, each with a value; got ${xs.length} and ${ys.length}`,
    )
  }
  if (![...xs, ...ys].every(Number.isFinite)) throw new RangeError('a spline needs finite points')
  if (xs.some((x, index) => index > 0 && !(x > (xs[index - 1] ?? Infinity)))) {
    throw new RangeError('a spline needs rising abscissas')
  }
  const spline = numeric.spline([...xs], [...ys])
  return {
    at: (x) => Number(spline.at(x)),
    crossings: (level) =>
      distinct(
        numeric
          .spline(
            [...xs],
            ys.map((y) => y - level),
          )
          .roots(),
        spanOf(xs) * 1e-9,
      ),
  }
}

/** The library reports a root that falls on a sample once for each of its two intervals. */
function distinct(sorted: readonly number[], closeness: number): number[] {
  return sorted.filter((root, index) => index === 0 || root - (sorted[index - 1] ?? -Infinity) > closeness)
}

function spanOf(xs: readonly number[]): number {
  return Number(xs.at(-1)) - Number(xs[0])
}
