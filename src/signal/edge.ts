import type { Edge } from '../board/nets.ts'
import { complex, scale } from '../numerics/complex.ts'
import type { Complex, Metres, Quantity, Ratio, Seconds, SecondsPerMetre } from '../units/quantity.ts'

/** What of an edge matters here; `riseTime` is 10–90 %. */
export type EdgeShape = Pick<Edge, 'riseTime' | 'shape'>

/** Φ⁻¹(0.9) = 1.281551565545 (M. Abramowitz, I. A. Stegun, 1964, table 26.5), twice: 10–90 % in deviations. */
const TEN_TO_NINETY_IN_DEVIATIONS = 2 * 1.2815515655446004
/** A straight ramp takes 1 / (0.9 − 0.1) of its 10–90 % time from end to end. */
const RAMP_OVER_TEN_TO_NINETY = 1.25
/** Deviations either side of the middle beyond which a Gaussian edge is flat to 1e-7, and its spectrum over. */
const REACH_IN_DEVIATIONS = 5.5
/** A straight ramp's corners are rounded by a deviation of this share of its length, so that its spectrum ends. */
const ROUNDING = 1 / 300

/** Standard deviation of the Gaussian that the edge Φ(t/σ) integrates: σ = T₁₀₋₉₀ / 2.5631. */
export function deviationOf(riseTime: Seconds): Seconds {
  return riseTime / TEN_TO_NINETY_IN_DEVIATIONS
}

/** Time from end to end of a straight ramp. */
export function rampTimeOf(riseTime: Seconds): Seconds {
  return riseTime * RAMP_OVER_TEN_TO_NINETY
}

/** When an edge begins and ends to move, where its spectrum ends, and how closely its summits have to be sampled. */
export interface Settling {
  readonly start: Seconds
  readonly end: Seconds
  readonly highest: Quantity<'rad/s'>
  readonly step: Seconds
}

/** A Gaussian edge is at half its height at t = 0, a ramp starts there. */
export function settlingOf(edge: EdgeShape): Settling {
  if (edge.shape === 'gaussian') {
    const deviation = deviationOf(edge.riseTime)
    const reach = REACH_IN_DEVIATIONS * deviation
    return { start: -reach, end: reach, highest: REACH_IN_DEVIATIONS / deviation, step: deviation / 2 }
  }
  const ramp = rampTimeOf(edge.riseTime)
  const rounding = ROUNDING * ramp
  const reach = REACH_IN_DEVIATIONS * rounding
  return { start: -reach, end: ramp + reach, highest: REACH_IN_DEVIATIONS / rounding, step: rounding }
}

/**
 * Spectrum of the edge's slope, which has unit area: e^{−ω²σ²/2}; of a ramp of length T and rounding s,
 * e^{−jωT/2} e^{−ω²s²/2} sin(ωT/2)/(ωT/2). Plateaus keep their height, a corner loses 0.4 s times its change of slope.
 */
export function edgeSpectrum(edge: EdgeShape, omega: Quantity<'rad/s'>): Complex {
  if (edge.shape === 'gaussian') return complex(gaussianSpectrum(omega * deviationOf(edge.riseTime)))
  const ramp = rampTimeOf(edge.riseTime)
  const half = (omega * ramp) / 2
  const rounded = gaussianSpectrum(omega * ROUNDING * ramp)
  return scale(
    complex(Math.cos(half), -Math.sin(half)),
    half === 0 ? rounded : (rounded * Math.sin(half)) / half,
  )
}

function gaussianSpectrum(turns: Ratio): Ratio {
  return Math.exp(-(turns * turns) / 2)
}

/**
 * Steepest slope: 1/(σ√(2π)) = 1.0225/T₁₀₋₉₀ of a Gaussian edge, 1/(1.25 T₁₀₋₉₀) = 0.8/T₁₀₋₉₀ of a ramp.
 *
 * Throws RangeError unless the rise time is positive.
 */
export function steepestSlope(edge: EdgeShape): Quantity<'1/s'> {
  if (!(edge.riseTime > 0)) throw new RangeError(`rise time must be above 0, got ${edge.riseTime} s`)
  return edge.shape === 'gaussian'
    ? 1 / (deviationOf(edge.riseTime) * Math.sqrt(2 * Math.PI))
    : 1 / rampTimeOf(edge.riseTime)
}

/** Length of line that the edge occupies: rise time over delay per metre. */
export function edgeLength(riseTime: Seconds, delay: SecondsPerMetre): Metres {
  if (!(delay > 0)) throw new RangeError(`delay must be above 0, got ${delay} s/m`)
  return riseTime / delay
}
