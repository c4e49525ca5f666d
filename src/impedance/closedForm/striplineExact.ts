import { ellipticRatio } from '../../numerics/ellipticRatio.ts'
import { FREE_SPACE_IMPEDANCE } from '../../units/constants.ts'
import type { Metres, Ohms, Ratio } from '../../units/quantity.ts'
import type { Limit } from './limits.ts'
import { assertCentredStripline } from './striplineLine.ts'

/**
 * Centred stripline of zero thickness: exact by conformal mapping.
 *
 *     Z = η0/(4 √εr) · K(k)/K(k′),   k = sech(πw/2b),   k′ = tanh(πw/2b)
 *
 * Assumes: TEM, lossless, infinite planes, one dielectric, strip of zero thickness midway.
 *
 * Source: S. B. Cohn, "Characteristic impedance of the shielded-strip transmission line", IRE Trans. MTT-2,
 * 52–57, July 1954, eq. (1), after F. Oberhettinger and W. Magnus, 1949.
 */
export function striplineExact(line: {
  readonly width: Metres
  /** Between the facing surfaces of the planes. */
  readonly spacing: Metres
  readonly relativePermittivity: Ratio
}): Ohms {
  assertCentredStripline({ ...line, thickness: 0 })
  const { width: w, spacing: b, relativePermittivity: er } = line
  const x = (Math.PI * w) / (2 * b)
  // Beyond x = 40 the modulus is below 1e-17 and K(k)/K(k′) = π/(2 ln(4/k)) = π/(2 (x + ln 2)) to the last digit,
  // while cosh x would overflow for very wide strips.
  const ratio = x > 40 ? Math.PI / (2 * (x + Math.LN2)) : ellipticRatio(1 / Math.cosh(x), Math.tanh(x))
  return (FREE_SPACE_IMPEDANCE / (4 * Math.sqrt(er))) * ratio
}

/** Exact for every width, but only without thickness. */
export const LIMITS: readonly Limit[] = [{ quantity: 'thickness/spacing', min: 0, max: 0 }]
