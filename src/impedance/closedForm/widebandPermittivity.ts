import type { Hertz, Ratio } from '../../units/quantity.ts'

/** Relative permittivity and loss tangent, ε = relative · (1 − j · lossTangent). */
export interface ComplexPermittivity {
  readonly relative: Ratio
  readonly lossTangent: Ratio
}

/** What a data sheet gives: both at one frequency. */
export interface PermittivityPoint extends ComplexPermittivity {
  readonly frequency: Hertz
}

/** The relaxation frequencies are spread evenly over the logarithm of frequency between these. */
const LOWEST_POLE: Hertz = 1e3
const HIGHEST_POLE: Hertz = 1e12

/**
 * Permittivity at another frequency than the data sheet's, causal: a continuum of Debye poles.
 *
 *     ε(f) = ε∞ + Δ · L(f),   L(f) = ln[(f_high + j f) / (f_low + j f)] / ln(f_high / f_low)
 *
 * Δ and ε∞ follow from the one given point. Between the end frequencies ε′ falls by about
 * Δ ln 10 / ln(f_high / f_low) a decade and ε″ is nearly constant; outside both level off.
 * A lossless material is constant, as causality demands.
 *
 * Assumes: e^{+jωt}; one polarisation process without resonance; the end frequencies 1 kHz and 1 THz, which are
 * a choice of this project and matter little two decades inside them.
 * Source: A. R. Djordjević, R. M. Biljić, V. D. Likar-Smiljanić, T. K. Sarkar, "Wideband frequency-domain
 * characterization of FR-4 and time-domain causality", IEEE Trans. EMC-43, 2001, pp. 662–667;
 * C. Svensson, G. E. Dermer, IEEE Trans. Advanced Packaging 24, 2001, pp. 191–196.
 * Throws RangeError for a permittivity below 1, a negative loss tangent or a frequency that is not positive.
 */
export function permittivityAt(point: PermittivityPoint, frequency: Hertz): ComplexPermittivity {
  const { relative, lossTangent, frequency: given } = point
  if (!(relative >= 1 && lossTangent >= 0)) {
    throw new RangeError(
      `permittivity needs relative >= 1 and loss tangent >= 0, got ${relative} and ${lossTangent}`,
    )
  }
  if (!(given > 0 && frequency > 0)) {
    throw new RangeError(`permittivity needs frequencies > 0 Hz, got ${given} Hz and ${frequency} Hz`)
  }
  if (lossTangent === 0) return { relative, lossTangent }
  const atGiven = poleSpread(given)
  const strength = (relative * lossTangent) / -atGiven.im
  const limit = relative - strength * atGiven.re
  const wanted = poleSpread(frequency)
  const real = limit + strength * wanted.re
  return { relative: real, lossTangent: (-strength * wanted.im) / real }
}

/** L(f): logarithm of the ratio of two complex numbers in the first quadrant, so no branch is crossed. */
function poleSpread(frequency: Hertz): { readonly re: number; readonly im: number } {
  const span = Math.log(HIGHEST_POLE / LOWEST_POLE)
  return {
    re: Math.log(Math.hypot(HIGHEST_POLE, frequency) / Math.hypot(LOWEST_POLE, frequency)) / span,
    im: (Math.atan(frequency / HIGHEST_POLE) - Math.atan(frequency / LOWEST_POLE)) / span,
  }
}
