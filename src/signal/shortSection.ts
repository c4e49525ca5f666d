import type { Ohms, Quantity, Ratio } from '../units/quantity.ts'
import { reflectionAt, type Cascade, type UniformSection } from './cascade.ts'
import { steepestSlope, type EdgeShape } from './edge.ts'

/**
 * Peak reflection of sections that are short against the edge, to first order in their delay, signed.
 *
 * A section of impedance Z and one-way delay t between lines of Z₀, with Γ = (Z − Z₀)/(Z + Z₀), answers an
 * ideal step with the staircase Γ, Γ³, Γ⁵, … of treads 2t. Its area is A = 2t Γ/(1 − Γ²) = (t/2)(Z/Z₀ − Z₀/Z).
 * An edge r(t) that is slow against 2t sees only this area, so the reflection is A · dr/dt and peaks at
 *
 *     V = (t/2)(Z/Z₀ − Z₀/Z) · max dr/dt
 *
 * which for a ramp of duration t_r is the familiar (Z/Z₀ − Z₀/Z) t/(2 t_r); for a Gaussian edge the steepest
 * slope is 1.0225 over its 10–90 % time, a ramp's is 0.8 over it. Areas of sections in series add up.
 *
 * In front of a device Z_d instead of a line, the section is compared with the same length of Z₀: the change
 * is an excess inductance t(Z − Z₀) before, and an excess capacitance t(1/Z − 1/Z₀) across, the device:
 *
 *     A = 2 Z₀ t (Z − Z₀)(1 + Z_d²/(Z Z₀)) / (Z_d + Z₀)²
 *
 * which for Z_d = Z₀ is the area above. An open line that hangs in parallel is its capacitance t/Z:
 * A = −2 Z₀ Z_d² C/(Z_d + Z₀)², and sends back at most what a step meets at its root.
 *
 * Because the staircase of a single section between equal lines never changes sign, both A · max dr/dt and Γ
 * bound its peak from above at any edge; the result is the smaller of the two. For several sections and in
 * front of a device, the second bound is the largest reflection that a step finds on any one of them, and
 * where their staircase changes sign the corners of a ramp show part of the area: the exact peak can be higher.
 *
 * Assumes lossless sections. Throws RangeError unless impedances and the rise time are positive.
 *
 * Source: own derivation of a standard result; the tests hold it against the exact series.
 */
export function shortSectionPeak(cascade: Cascade, edge: EdgeShape): Ratio {
  const { before, sections, after } = cascade
  for (const impedance of [before, after]) {
    if (!(impedance > 0)) throw new RangeError(`impedance must be above 0, got ${impedance} ohm`)
  }
  const area = sections.reduce((sum, section) => sum + areaOf(section, before, after), 0)
  const slow = area * steepestSlope(edge)
  const bound = Math.max(0, ...sections.map((section) => fastest(section, before, after)))
  return Math.abs(slow) < bound ? slow : Math.sign(slow) * bound
}

/** Area between the section's answer to an ideal step and that of the same length of line `before`. */
function areaOf(section: UniformSection, before: Ohms, after: Ohms): Quantity<'s'> {
  const { impedance: z, delay, hanging } = section
  if (!(z > 0)) throw new RangeError(`impedance must be above 0, got ${z} ohm`)
  const line = delay * (z - before) * (1 + (after * after) / (z * before))
  const shunt = hanging ? (after * after * hanging.delay) / hanging.impedance : 0
  return (2 * before * (line - shunt)) / (after + before) ** 2
}

/**
 * Largest step of the staircase for an edge faster than the section, the same length of `before` taken off:
 * Γ₁ at first; then, the device's own echo subtracted, Γ₁Γ₂²(1 − Γ₁²)/(1 + Γ₁Γ₂) in size.
 */
function fastest(section: UniformSection, before: Ohms, after: Ohms): Ratio {
  const near = reflectionAt(before, section.impedance)
  const far = reflectionAt(section.impedance, after)
  const second = (near * far * far * (1 - near * near)) / (1 + near * far)
  const root = section.hanging ? before / (2 * section.hanging.impedance + before) : 0
  return Math.max(Math.abs(near), Math.abs(second), root)
}
