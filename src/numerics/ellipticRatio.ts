import { agm } from './agm.ts'

/**
 * Ratio of complete elliptic integrals of the first kind, K(k) / K(k′), of a modulus k and its complement
 * k′ = √(1 − k²). With K(k) = π / (2 AGM(1, k′)) it is
 *
 *     K(k) / K(k′) = AGM(1, k) / AGM(1, k′)
 *
 * Both moduli are arguments because near k = 1 the complement computed from k loses all its digits;
 * the caller knows it as, for example, k = sech x, k′ = tanh x.
 *
 * Throws RangeError unless both lie in (0, 1] and k² + k′² = 1 to 1e-9.
 *
 * Source: M. Abramowitz, I. A. Stegun (eds.), Handbook of Mathematical Functions, 1964, 17.6.3.
 */
export function ellipticRatio(modulus: number, complement: number): number {
  if (!(modulus > 0 && complement > 0 && Math.abs(modulus * modulus + complement * complement - 1) < 1e-9)) {
    throw new RangeError(
      `ellipticRatio needs k > 0, k′ > 0 and k² + k′² = 1, got ${modulus} and ${complement}`,
    )
  }
  return agm(1, modulus) / agm(1, complement)
}
