import { normalCumulative } from '../../src/numerics/normalDistribution.ts'
import { assertCascade, delayOf, reflectionAt, type Cascade } from '../../src/signal/cascade.ts'
import { deviationOf, rampTimeOf, type EdgeShape } from '../../src/signal/edge.ts'
import type { Ratio, Seconds } from '../../src/units/quantity.ts'

/** A copy of the incident wave, `amplitude` times its height and `time` later. */
export interface Echo {
  readonly time: Seconds
  readonly amplitude: Ratio
}

/** Echoes below this share of the incident wave are dropped; a thousand of them would still be under 1e-6. */
const FAINTEST: Ratio = 1e-9
/** Echoes closer than this share of the cascade's own delay are one: their times differ by rounding alone. */
const SIMULTANEOUS: Ratio = 1e-9

/**
 * Every echo that a cascade of lossless sections sends back: the exact bounce series in time, which shares nothing
 * with the spectrum that the source takes. Lines that hang beside are not in it.
 *
 * Behind a joint of reflection Γ, what a section of one-way delay t and all beyond it send back is a series w
 * of echoes, each delayed by 2t. Seen through the joint, ρ = (Γ + w)/(1 + Γ w), which read as
 *
 *     ρ = Γ + w − Γ w ρ
 *
 * gives each echo of ρ from earlier ones: a product multiplies amplitudes and adds times. Applied from the
 * far end to the near one; times are sums of the delays, nothing is put on a grid.
 *
 * In order of time; the sum of all amplitudes is the reflection at rest, (after − before)/(after + before).
 * Throws RangeError for what `assertCascade` refuses.
 *
 * Source: the lattice diagram of L. V. Bewley, Traveling Waves on Transmission Systems, 2nd ed., 1951, summed.
 */
export function echoesOf(cascade: Cascade): Echo[] {
  assertCascade(cascade)
  const { before, after } = cascade
  // A section that takes no time is not there for a wave in time.
  const sections = cascade.sections.filter((section) => section.delay > 0)
  const closeness = SIMULTANEOUS * delayOf(sections)
  const impedances = [before, ...sections.map((section) => section.impedance), after]
  const joints = impedances.slice(1).map((to, index) => reflectionAt(impedances[index] ?? NaN, to))
  let seen: Echo[] = [{ time: 0, amplitude: joints.at(-1) ?? NaN }]
  for (const [index, { delay }] of [...sections.entries()].reverse()) {
    const behind = seen.map(({ time, amplitude }) => ({ time: time + 2 * delay, amplitude }))
    seen = throughJoint(joints[index] ?? NaN, behind, closeness)
  }
  return seen.filter(({ amplitude }) => Math.abs(amplitude) >= FAINTEST)
}

function throughJoint(gamma: Ratio, behind: readonly Echo[], closeness: Seconds): Echo[] {
  // Latest first, so that the next one to come is the last of the list.
  const pending = [...behind].reverse()
  pending.push({ time: 0, amplitude: gamma })
  const seen: Echo[] = []
  for (let echo = pending.pop(); echo !== undefined; echo = pending.pop()) {
    seen.push(echo)
    const factor = -Number(gamma) * echo.amplitude
    if (Math.abs(factor) < FAINTEST) continue
    for (const { time, amplitude } of behind) {
      if (Math.abs(factor * amplitude) < FAINTEST) continue
      insert(pending, { time: echo.time + time, amplitude: factor * amplitude }, closeness)
    }
  }
  return seen
}

/** Into a list with the latest first; echoes of one instant are added up. */
function insert(pending: Echo[], echo: Echo, closeness: Seconds): void {
  let low = 0
  let high = pending.length
  while (low < high) {
    const middle = (low + high) >>> 1
    if ((pending[middle]?.time ?? NaN) > echo.time + closeness) low = middle + 1
    else high = middle
  }
  const there = pending[low]
  if (there !== undefined && Math.abs(there.time - echo.time) <= closeness) {
    pending[low] = { time: there.time, amplitude: there.amplitude + echo.amplitude }
  } else {
    pending.splice(low, 0, echo)
  }
}

/** The edge as a function of time, from 0 to 1: a Gaussian one is at half its height at t = 0, a ramp starts there. */
export function edgeAt(edge: EdgeShape, time: Seconds): Ratio {
  return edge.shape === 'gaussian'
    ? normalCumulative(time / deviationOf(edge.riseTime))
    : Math.min(1, Math.max(0, time / rampTimeOf(edge.riseTime)))
}

/**
 * Largest excursion, with its sign, of a sum of echoes of one edge, less those of the device at rest: of ramps on
 * their corners, where it must lie; of Gaussian edges among samples, ten to the deviation and then a hundred about the
 * highest, 1.3e-5 of itself too low at most.
 */
export function seriesPeak(cascade: Cascade, edge: EdgeShape): Ratio {
  const arrival = 2 * delayOf(cascade.sections)
  const atRest = { time: arrival, amplitude: -reflectionAt(cascade.before, cascade.after) }
  const echoes = [...echoesOf(cascade), atRest].filter(({ amplitude }) => Math.abs(amplitude) > 1e-8)
  const at = (time: Seconds): Ratio =>
    echoes.reduce((sum, echo) => sum + echo.amplitude * edgeAt(edge, time - echo.time), 0)
  if (edge.shape === 'linear') {
    return at(
      highest(
        echoes.flatMap(({ time }) => [time, time + rampTimeOf(edge.riseTime)]),
        at,
      ),
    )
  }
  const deviation = deviationOf(edge.riseTime)
  const last = Math.max(...echoes.map(({ time }) => time)) + 5 * deviation
  const count = Math.ceil((last + 5 * deviation) / (deviation / 10))
  const coarse = highest(
    Array.from({ length: count }, (_, index) => (index / 10 - 5) * deviation),
    at,
  )
  return at(
    highest(
      Array.from({ length: 41 }, (_, index) => coarse + (index / 100 - 0.2) * deviation),
      at,
    ),
  )
}

function highest(instants: readonly Seconds[], at: (time: Seconds) => Ratio): Seconds {
  let best = 0
  let height = -1
  for (const instant of instants) {
    const value = Math.abs(at(instant))
    if (value > height) [best, height] = [instant, value]
  }
  return best
}
