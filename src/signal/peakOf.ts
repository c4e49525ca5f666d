import { normalCumulativeByTable } from '../numerics/normalDistribution.ts'
import type { Ratio, Seconds } from '../units/quantity.ts'
import type { Echo } from './echoes.ts'
import { deviationOf, edgeAt, edgeSpan, gaussianSlopeAt, rampTimeOf, type EdgeShape } from './edge.ts'

/** In deviations of a Gaussian edge: close enough that the sample next to a summit leads Newton's method to it. */
const SAMPLE_STEP = 0.5
/** In deviations: beyond, one echo moves the sum by less than 3e-4 of itself, and a gap is asked in its middle. */
const SAMPLE_REACH = 3.5
/** Fainter echoes hardly move the place of a summit. */
const LOUD = 1e-5
const NEWTON_STEPS = 4

/**
 * Largest excursion, with its sign, of a sum of echoes of one edge, as a share of the edge's height.
 *
 * A sum of ramps is straight between its corners, so its extremes lie on them: exact. A sum of Gaussian edges
 * is sampled twice a deviation wherever it moves and once wherever it rests, and the highest sample is carried
 * to the summit by Newton's method on the slope.
 *
 * Throws RangeError unless the rise time is positive.
 */
export function peakOf(echoes: readonly Echo[], edge: EdgeShape): Ratio {
  if (!(edge.riseTime > 0)) throw new RangeError(`rise time must be above 0, got ${edge.riseTime} s`)
  const at = (time: Seconds): Ratio =>
    echoes.reduce((sum, echo) => sum + echo.amplitude * edgeAt(edge, time - echo.time), 0)
  if (edge.shape === 'linear') return at(highest(corners(echoes, edge), at))
  // To find the place of the summit, loud echoes and a table will do; its height is then taken exactly.
  const loud = loudEchoes(echoes)
  const deviation = deviationOf(edge.riseTime)
  const near = (time: Seconds): Ratio =>
    loud.reduce(
      (sum, echo) => sum + echo.amplitude * normalCumulativeByTable((time - echo.time) / deviation),
      0,
    )
  const sample = highest(samples(loud, edge), near)
  return at(highest([sample, summitNear(sample, loud, edge.riseTime)], at))
}

/** Faint echoes joined to the loud one before them, so that the sum at rest stays what it was. */
function loudEchoes(echoes: readonly Echo[]): Echo[] {
  const loud: Echo[] = []
  for (const echo of echoes) {
    const last = loud.at(-1)
    if (Math.abs(echo.amplitude) >= LOUD || last === undefined) loud.push(echo)
    else loud[loud.length - 1] = { time: last.time, amplitude: last.amplitude + echo.amplitude }
  }
  return loud
}

function highest(instants: readonly Seconds[], at: (time: Seconds) => Ratio): Seconds {
  let best = 0
  let height = -Infinity
  for (const instant of instants) {
    const value = Math.abs(at(instant))
    if (value > height) [best, height] = [instant, value]
  }
  return best
}

function corners(echoes: readonly Echo[], edge: EdgeShape): Seconds[] {
  const ramp = rampTimeOf(edge.riseTime)
  return echoes.flatMap(({ time }) => [time, time + ramp])
}

/** Instants around every echo, each stretch once; one in each gap between stretches, and one at rest after all. */
function samples(echoes: readonly Echo[], edge: EdgeShape): Seconds[] {
  const deviation = deviationOf(edge.riseTime)
  const [step, reach] = [SAMPLE_STEP * deviation, SAMPLE_REACH * deviation]
  const instants: Seconds[] = []
  let covered = -Infinity
  let last = 0
  for (const { time } of echoes) {
    if (time - reach > covered + step) instants.push((Math.max(covered, time - 2 * reach) + time - reach) / 2)
    for (let instant = Math.max(time - reach, covered + step); instant <= time + reach; instant += step) {
      instants.push(instant)
      covered = instant
    }
    last = time
  }
  return [...instants, last + edgeSpan(edge).end]
}

function summitNear(guess: Seconds, echoes: readonly Echo[], riseTime: Seconds): Seconds {
  const deviation = deviationOf(riseTime)
  const reach = SAMPLE_STEP * deviation
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
