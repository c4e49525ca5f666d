import type { Edge } from '../board/nets.ts'
import { normalCumulative, normalDensity } from '../numerics/normalDistribution.ts'
import type { Metres, Quantity, Ratio, Seconds, SecondsPerMetre } from '../units/quantity.ts'

/** What of an edge matters here; `riseTime` is 10–90 %. */
export type EdgeShape = Pick<Edge, 'riseTime' | 'shape'>

/** Φ⁻¹(0.9) = 1.281551565545 (M. Abramowitz, I. A. Stegun, 1964, table 26.5), twice: 10–90 % in deviations. */
const TEN_TO_NINETY_IN_DEVIATIONS = 2 * 1.2815515655446004
/** A straight ramp takes 1 / (0.9 − 0.1) of its 10–90 % time from end to end. */
const RAMP_OVER_TEN_TO_NINETY = 1.25
/** Deviations either side of the middle beyond which a Gaussian edge is flat to 1e-15. */
const REACH_IN_DEVIATIONS = 8

/** Standard deviation of the Gaussian that the edge Φ(t/σ) integrates: σ = T₁₀₋₉₀ / 2.5631. */
export function deviationOf(riseTime: Seconds): Seconds {
  return riseTime / TEN_TO_NINETY_IN_DEVIATIONS
}

/** Time from end to end of a straight ramp. */
export function rampTimeOf(riseTime: Seconds): Seconds {
  return riseTime * RAMP_OVER_TEN_TO_NINETY
}

/** The edge as a function of time, from 0 to 1: a Gaussian one is at half its height at t = 0, a ramp starts there. */
export function edgeAt(edge: EdgeShape, time: Seconds): Ratio {
  return edge.shape === 'gaussian'
    ? normalCumulative(time / deviationOf(edge.riseTime))
    : Math.min(1, Math.max(0, time / rampTimeOf(edge.riseTime)))
}

/** dr/dt of a Gaussian edge; a ramp has corners and is asked by `edgeAt` alone. */
export function gaussianSlopeAt(riseTime: Seconds, time: Seconds): Quantity<'1/s'> {
  const deviation = deviationOf(riseTime)
  return normalDensity(time / deviation) / deviation
}

/** First and last instant between which the edge moves. */
export function edgeSpan(edge: EdgeShape): { readonly start: Seconds; readonly end: Seconds } {
  if (edge.shape === 'linear') return { start: 0, end: rampTimeOf(edge.riseTime) }
  const reach = REACH_IN_DEVIATIONS * deviationOf(edge.riseTime)
  return { start: -reach, end: reach }
}

/**
 * Steepest slope: 1/(σ√(2π)) = 1.0225/T₁₀₋₉₀ of a Gaussian edge, 1/(1.25 T₁₀₋₉₀) = 0.8/T₁₀₋₉₀ of a ramp.
 *
 * Throws RangeError unless the rise time is positive.
 */
export function steepestSlope(edge: EdgeShape): Quantity<'1/s'> {
  if (!(edge.riseTime > 0)) throw new RangeError(`rise time must be above 0, got ${edge.riseTime} s`)
  return edge.shape === 'gaussian' ? gaussianSlopeAt(edge.riseTime, 0) : 1 / rampTimeOf(edge.riseTime)
}

/** Length of line that the edge occupies: rise time over delay per metre. */
export function edgeLength(riseTime: Seconds, delay: SecondsPerMetre): Metres {
  if (!(delay > 0)) throw new RangeError(`delay must be above 0, got ${delay} s/m`)
  return riseTime / delay
}
