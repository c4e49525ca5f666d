import { SPEED_OF_LIGHT } from '../../units/constants.ts'
import type { Hertz, NepersPerMetre, Ratio } from '../../units/quantity.ts'

/** One dielectric of a line. */
export interface DielectricShare {
  /** Part of the line's electric energy in this dielectric: ∂εeff/∂εr · εr/εeff. */
  readonly share: Ratio
  readonly lossTangent: Ratio
}

/**
 * Dielectric loss of a line whose field lies in several dielectrics.
 *
 *     α = (π f √εeff / c) Σ qᵢ tan δᵢ,   qᵢ = (∂εeff/∂εᵢ) (εᵢ/εeff)
 *
 * qᵢ is the share of electric energy: with one dielectric filling all space it is 1. Assumes small loss.
 * Source: D. M. Pozar, "Microwave Engineering", 4th ed. 2012, eqs. 3.30 and 3.198, generalised by the variational
 * property of the capacitance.
 * Throws RangeError unless frequency is positive, the effective permittivity at least 1 and each share not negative.
 */
export function dielectricLoss(
  effectivePermittivity: Ratio,
  dielectrics: readonly DielectricShare[],
  frequency: Hertz,
): NepersPerMetre {
  if (!(frequency > 0 && effectivePermittivity >= 1)) {
    throw new RangeError(
      `dielectric loss needs frequency > 0 and effective permittivity >= 1, got ${frequency} Hz, ${effectivePermittivity}`,
    )
  }
  const lossTangent = dielectrics.reduce((sum, dielectric) => {
    if (!(dielectric.share >= 0 && dielectric.lossTangent >= 0)) {
      throw new RangeError(
        `dielectric loss needs share >= 0 and loss tangent >= 0, got ${dielectric.share}, ${dielectric.lossTangent}`,
      )
    }
    return sum + dielectric.share * dielectric.lossTangent
  }, 0)
  return ((Math.PI * frequency * Math.sqrt(effectivePermittivity)) / SPEED_OF_LIGHT) * lossTangent
}

/**
 * Share of electric energy in the substrate of a bare microstrip, εr (εeff − 1) / [εeff (εr − 1)]: the effective
 * permittivity taken as linear in εr at a fixed filling. Pozar, eq. 3.198.
 */
export function substrateShare(relativePermittivity: Ratio, effectivePermittivity: Ratio): Ratio {
  if (!(relativePermittivity > 1 && effectivePermittivity >= 1)) {
    throw new RangeError(
      `substrate share needs permittivity > 1 and effective permittivity >= 1, got ${relativePermittivity}, ${effectivePermittivity}`,
    )
  }
  return (
    (relativePermittivity * (effectivePermittivity - 1)) /
    (effectivePermittivity * (relativePermittivity - 1))
  )
}
