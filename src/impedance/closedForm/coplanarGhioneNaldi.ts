import { ellipticRatio } from '../../numerics/ellipticRatio.ts'
import { FREE_SPACE_IMPEDANCE } from '../../units/constants.ts'
import type { Metres, Ratio } from '../../units/quantity.ts'
import { assertCoplanarLine, type CoplanarLine } from './coplanarLine.ts'
import type { Limit } from './limits.ts'
import type { LineConstants } from './lineConstants.ts'

/**
 * Grounded coplanar line of zero thickness, by conformal mapping with a magnetic wall in each gap. With a = w/2 and
 * B = w/2 + gap:
 *
 *     k    = a/B,   k3 = tanh(πa/2h)/tanh(πB/2h),   r = K(k)/K(k′),   r3 = K(k3)/K(k3′)
 *     εeff = (r + εr r3)/(r + r3),   Z = η0/2 / [ √εeff (r + r3) ]
 *
 * r belongs to the air above, r3 to the substrate with its plane. For gaps wider than the substrate the magnetic
 * wall is no field line and the microstrip limit is missed by up to 6 %. The thickness given is not used.
 *
 * Assumes: lossless, quasi-static, zero thickness, infinite side grounds at the potential of the plane.
 * Source: G. Ghione, C. Naldi, "Parameters of coplanar waveguides with lower ground plane", Electronics Letters 19,
 * 734–735, 1983; "Coplanar waveguides for MMIC applications", IEEE Trans. MTT-35, 260–267, March 1987.
 */
export function coplanarGhioneNaldi(line: CoplanarLine): LineConstants {
  assertCoplanarLine(line)
  const { width: w, gap, height: h, relativePermittivity: er } = line
  const { open, backed } = halfSpaceRatios(w / 2, w / 2 + gap, h)
  const ee = (open + er * backed) / (open + backed)
  return {
    impedance: FREE_SPACE_IMPEDANCE / (2 * Math.sqrt(ee) * (open + backed)),
    effectivePermittivity: ee,
  }
}

export const LIMITS: readonly Limit[] = [
  { quantity: 'thickness/gap', min: 0, max: 0 },
  { quantity: 'gap/height', min: 0, max: 1 },
]

/**
 * r and r3: capacitance of the open and of the plane-backed half space, each over 2ε, for strip edges at ±a and
 * ground edges at ±B.
 */
export function halfSpaceRatios(
  a: Metres,
  B: Metres,
  height: Metres,
): { readonly open: Ratio; readonly backed: Ratio } {
  return { open: ellipticRatio(a / B, Math.sqrt((B - a) * (B + a)) / B), backed: backedRatio(a, B, height) }
}

/**
 * r3 alone. With x = πa/2h and y = πB/2h the complement is k3′² = sinh(y − x) sinh(y + x)/(cosh x sinh y)²: no
 * difference of nearly equal numbers. It is written in decaying exponentials, which do not overflow for wide gaps.
 */
export function backedRatio(a: Metres, B: Metres, height: Metres): Ratio {
  const x = (Math.PI * a) / (2 * height)
  const y = (Math.PI * B) / (2 * height)
  const product = Math.expm1(2 * (x - y)) * Math.expm1(-2 * (x + y))
  const complement = Math.sqrt(product) / (Math.cosh(x) * -Math.expm1(-2 * y))
  return ellipticRatio(Math.tanh(x) / Math.tanh(y), complement)
}
