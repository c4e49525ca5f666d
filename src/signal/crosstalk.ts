import { normalCumulative } from '../numerics/normalDistribution.ts'
import type { Metres, Ratio, Seconds, SecondsPerMetre } from '../units/quantity.ts'
import { deviationOf, rampTimeOf, steepestSlope, type EdgeShape } from './edge.ts'

/** A length in which one neighbour runs beside a trace at one gap. */
export interface CoupledPiece {
  readonly backward: Ratio
  readonly forward: SecondsPerMetre
  readonly length: Metres
  /** One way. */
  readonly delay: Seconds
}

/**
 * Largest share of an edge that passes in a span of time: of a ramp T/T₀₋₁₀₀ up to all of it, of a Gaussian edge
 * 2Φ(T/2σ) − 1. The textbook's 2 t_d/t_r, up to 1, is the ramp of which t_r is the whole.
 *
 * Throws RangeError unless the rise time is positive and the span is not negative.
 */
function shareInSpan(edge: EdgeShape, span: Seconds): Ratio {
  if (!(edge.riseTime > 0)) throw new RangeError(`rise time must be above 0, got ${edge.riseTime} s`)
  if (!(span >= 0)) throw new RangeError(`a span of time must be 0 or more, got ${span} s`)
  return edge.shape === 'gaussian'
    ? 2 * normalCumulative(span / (2 * deviationOf(edge.riseTime))) - 1
    : Math.min(1, span / rampTimeOf(edge.riseTime))
}

/**
 * Peak that one neighbour sends to the near end of a trace matched there, over the neighbour's swing.
 *
 * A piece of delay t returns K (v(τ) − v(τ − 2t)), later pieces the same later. For one piece the peak is K times the
 * share of the edge that passes in 2t. Of several it depends on what lies between them: this is the largest that any
 * order gives, with the strongest in the middle of the edge, so it never exceeds the largest K.
 *
 * Source: A. Feller, H. R. Kaupp, J. J. Digiacomo, "Crosstalk and reflections in high-speed digital systems", AFIPS
 * Fall Joint Computer Conference, 1965 (from memory); the order by G. H. Hardy, J. E. Littlewood, G. Pólya,
 * Inequalities, 1934, theorem 378 (rearrangement).
 */
export function nearEndPeak(pieces: readonly CoupledPiece[], edge: EdgeShape): Ratio {
  let span = 0
  let passed = 0
  let peak = 0
  for (const { backward, delay } of [...pieces].sort((a, b) => b.backward - a.backward)) {
    span += 2 * delay
    const share = shareInSpan(edge, span)
    peak += backward * (share - passed)
    passed = share
  }
  return peak
}

/** Half the swing: two lines that the modes have run apart on. */
const LARGEST_FAR_END: Ratio = 0.5

/**
 * Peak that runs on to the far end of a trace matched there, over the neighbour's swing: the sum of forward
 * coefficients times lengths, by the steepest slope of the edge. Negative where inductive coupling outweighs; 0 in
 * one dielectric. Holds while it is small; cut off at one half.
 */
export function farEndPeak(pieces: readonly CoupledPiece[], edge: EdgeShape): Ratio {
  const time = pieces.reduce((sum, { forward, length }) => sum + forward * length, 0)
  const peak = time * steepestSlope(edge)
  return Math.sign(peak) * Math.min(LARGEST_FAR_END, Math.abs(peak))
}
