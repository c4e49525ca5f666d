import type { Ratio, Seconds } from '../units/quantity.ts'
import type { Echo } from './echoes.ts'
import { deviationOf, edgeAt, edgeSpan, gaussianSlopeAt, rampTimeOf, type EdgeShape } from './edge.ts'

/** Samples per deviation of a Gaussian edge: fine enough that one hump of the sum holds several. */
const SAMPLES_PER_DEVIATION = 4
const NEWTON_STEPS = 5

/**
 * Largest excursion, with its sign, of a sum of echoes of one edge, as a share of the edge's height.
 *
 * A sum of ramps is straight between its corners, so its extremes lie on them: exact. A sum of Gaussian edges
 * is sampled four times a deviation wherever it moves, and the highest sample is carried to the summit by
 * Newton's method on the slope.
 *
 * Throws RangeError unless the rise time is positive.
 */
export function peakOf(echoes: readonly Echo[], edge: EdgeShape): Ratio {
  if (!(edge.riseTime > 0)) throw new RangeError(`rise time must be above 0, got ${edge.riseTime} s`)
  const at = (time: Seconds): Ratio =>
    echoes.reduce((sum, echo) => sum + echo.amplitude * edgeAt(edge, time - echo.time), 0)
  let best = { time: 0, value: 0 }
  for (const time of edge.shape === 'linear' ? corners(echoes, edge) : samples(echoes, edge)) {
    const value = at(time)
    if (Math.abs(value) > Math.abs(best.value)) best = { time, value }
  }
  if (edge.shape === 'linear') return best.value
  const summit = at(summitNear(best.time, echoes, edge.riseTime))
  return Math.abs(summit) > Math.abs(best.value) ? summit : best.value
}

function corners(echoes: readonly Echo[], edge: EdgeShape): Seconds[] {
  const ramp = rampTimeOf(edge.riseTime)
  return echoes.flatMap(({ time }) => [time, time + ramp])
}

/** Instants inside the reach of any echo, each stretch once. */
function samples(echoes: readonly Echo[], edge: EdgeShape): Seconds[] {
  const step = deviationOf(edge.riseTime) / SAMPLES_PER_DEVIATION
  const { start, end } = edgeSpan(edge)
  const instants: Seconds[] = []
  let covered = -Infinity
  for (const { time } of echoes) {
    for (let instant = Math.max(time + start, covered + step); instant <= time + end; instant += step) {
      instants.push(instant)
      covered = instant
    }
  }
  return instants
}

function summitNear(guess: Seconds, echoes: readonly Echo[], riseTime: Seconds): Seconds {
  const deviation = deviationOf(riseTime)
  const reach = deviation / SAMPLES_PER_DEVIATION
  let time = guess
  for (let step = 0; step < NEWTON_STEPS; step += 1) {
    let slope = 0
    let curvature = 0
    for (const echo of echoes) {
      const since = time - echo.time
      const part = echo.amplitude * gaussianSlopeAt(riseTime, since)
      slope += part
      curvature -= (part * since) / (deviation * deviation)
    }
    const next = time - slope / curvature
    // On a plateau both vanish and the sample is as good as any other place.
    if (!(Math.abs(next - guess) <= reach)) return time
    time = next
  }
  return time
}
