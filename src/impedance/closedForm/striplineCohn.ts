import { FREE_SPACE_IMPEDANCE } from '../../units/constants.ts'
import type { Ohms, Ratio } from '../../units/quantity.ts'
import type { Limit } from './limits.ts'
import { assertCentredStripline, type CentredStripline } from './striplineLine.ts'

/**
 * Centred stripline with thickness, in the two forms of the paper, which meet at w/(b − t) = 0.35:
 *
 *     wide:    Z = η0 / { 4 √εr [ w/(b − t) + Cf/ε ] }
 *     narrow:  Z = η0/(2π √εr) · ln[ 4b/(π d0) ],   d0 = w/2 · { 1 + t/(πw) · [ 1 + ln(4πw/t) + 0.51 π (t/w)² ] }
 *
 * Cf/ε is the exact fringing capacitance of one corner (striplineCornerFringing), so that the wide form is exact
 * in the limit of a wide strip; the print rounds η0/4 to 94.15 and η0/2π to 60 ohm. The narrow form has the strip replaced by a
 * round wire of diameter d0. The two differ by up to 1.2 % where they meet.
 *
 * Assumes: TEM, lossless, infinite planes, one dielectric, rectangular strip midway.
 * Stated by the author: 1.2 % at worst, at the seam.
 *
 * Source: S. B. Cohn, "Characteristic impedance of the shielded-strip transmission line", IRE Trans. MTT-2,
 * 52–57, July 1954; coefficients of the narrow form from memory.
 *
 * Throws RangeError where the equivalent wire of a strip much thicker than wide no longer fits between the planes.
 */
export function striplineCohn(line: CentredStripline): Ohms {
  assertCentredStripline(line)
  return line.width / (line.spacing - line.thickness) >= SEAM ? wide(line) : narrow(line)
}

/** Of the paper: any thickness for wide strips; the narrow form is stated for thin ones. */
export const WIDE_LIMITS: readonly Limit[] = [
  { quantity: 'width/(spacing - thickness)', min: 0.35, max: 1000 },
]

export const NARROW_LIMITS: readonly Limit[] = [
  { quantity: 'width/(spacing - thickness)', min: 0, max: 0.35 },
  { quantity: 'thickness/spacing', min: 0, max: 0.25 },
  { quantity: 'thickness/width', min: 0, max: 0.11 },
]

/** w/(b − t) at which the author changes from one form to the other. */
export const SEAM = 0.35

/** Cf/ε = 1/π · [ 2A ln(A + 1) − (A − 1) ln(A² − 1) ] with A = 1/(1 − t/b): one corner of a wide thick strip. */
export function striplineCornerFringing(thicknessToSpacing: Ratio): Ratio {
  const x = thicknessToSpacing
  const A = 1 / (1 - x)
  // (A − 1) ln(A² − 1) tends to 0 with the thickness, as 0 · ln 0.
  const inner = x === 0 ? 0 : (A - 1) * Math.log(A * A - 1)
  return (2 * A * Math.log(A + 1) - inner) / Math.PI
}

function wide(line: CentredStripline): Ohms {
  const { width: w, thickness: t, spacing: b, relativePermittivity: er } = line
  return FREE_SPACE_IMPEDANCE / (4 * Math.sqrt(er) * (w / (b - t) + striplineCornerFringing(t / b)))
}

function narrow(line: CentredStripline): Ohms {
  const { width: w, thickness: t, spacing: b, relativePermittivity: er } = line
  const T = t / w
  const widened = T === 0 ? 1 : 1 + (T / Math.PI) * (1 + Math.log((4 * Math.PI) / T) + 0.51 * Math.PI * T * T)
  const d0 = (w / 2) * widened
  if (!(Math.PI * d0 < 4 * b)) {
    throw new RangeError(`narrow form of Cohn has no answer for a strip ${w} m wide and ${t} m thick`)
  }
  return (FREE_SPACE_IMPEDANCE / (2 * Math.PI * Math.sqrt(er))) * Math.log((4 * b) / (Math.PI * d0))
}
