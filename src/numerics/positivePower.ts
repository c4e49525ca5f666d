/**
 * base^exponent of a positive base, as exp(exponent · ln base).
 *
 * The operator `**` also serves negative bases, infinities and exact integer powers, and takes three times as long for
 * it. Relative error below (2 + |exponent · ln base|) · 2^−52. A base of 0 gives 0 for a positive exponent; a negative
 * base gives NaN.
 */
export function positivePower(base: number, exponent: number): number {
  return Math.exp(exponent * Math.log(base))
}
