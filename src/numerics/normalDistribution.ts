/**
 * The normal distribution of zero mean and unit deviation.
 *
 * Source: M. Abramowitz, I. A. Stegun (eds.), Handbook of Mathematical Functions, 1964, 26.2.
 */

const SQRT_TWO_PI = Math.sqrt(2 * Math.PI)
/** Below it the power series takes at most 45 terms; above it the continued fraction converges fast. */
const SERIES_UP_TO = 4
const FRACTION_TERMS = 30
/** The tail beyond is under 1e-16, which a double added to 1 cannot hold. */
const FAR = 8.3

/** Density φ(x) = exp(−x²/2) / √(2π). */
export function normalDensity(x: number): number {
  return Math.exp((-x * x) / 2) / SQRT_TWO_PI
}

/**
 * Cumulative Φ(x), to 1e-15 absolute: the series 26.2.11 near the middle, the continued fraction 26.2.14 in
 * the tails.
 *
 * Throws RangeError when x is NaN.
 */
export function normalCumulative(x: number): number {
  if (Number.isNaN(x)) throw new RangeError('normalCumulative needs a number, got NaN')
  if (Math.abs(x) > FAR) return x > 0 ? 1 : 0
  if (Math.abs(x) <= SERIES_UP_TO) return 0.5 + normalDensity(x) * series(x)
  if (x > 0) return 1 - tail(x)
  return tail(-x)
}

/** x + x³/3 + x⁵/(3·5) + … */
function series(x: number): number {
  const square = x * x
  let term = x
  let sum = x
  for (let odd = 3; Math.abs(term) > 1e-17; odd += 2) {
    term *= square / odd
    sum += term
  }
  return sum
}

/** 1 − Φ(x) for x > 0: φ(x) · 1/(x + 1/(x + 2/(x + 3/(x + …)))). */
function tail(x: number): number {
  let fraction = x
  for (let k = FRACTION_TERMS; k >= 1; k -= 1) fraction = x + k / fraction
  return normalDensity(x) / fraction
}
