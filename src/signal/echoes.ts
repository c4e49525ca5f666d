import type { Ratio, Seconds } from '../units/quantity.ts'
import { assertCascade, delayOf, reflectionAt, type Cascade } from './cascade.ts'

/** A copy of the incident wave, `amplitude` times its height and `time` later. */
export interface Echo {
  readonly time: Seconds
  readonly amplitude: Ratio
}

/** Echoes below this share of the incident wave are left out; a hundred of them would still be under 1e-6. */
const FAINTEST: Ratio = 1e-8
/** Echoes closer than this share of the cascade's own delay are one: their times differ by rounding alone. */
const SIMULTANEOUS: Ratio = 1e-9

/**
 * Every echo that a cascade of lossless sections sends back: the exact bounce series in time.
 *
 * Seen through a joint of reflection Γ and a section of one-way delay t, what lies behind (itself a series w
 * of echoes, delayed by 2t) becomes
 *
 *     Γ + (1 − Γ²) [ w − Γ w² + Γ² w³ − … ],
 *
 * where a product of two series multiplies amplitudes and adds times. Applied from the far end to the near
 * one this is the continued fraction ρ = (Γ + w)/(1 + Γ w) written out, so nothing is put on a time grid.
 * The series converges because |w| ≤ 1 at every frequency and |Γ| < 1.
 *
 * In order of time; the sum of all amplitudes is the reflection at rest, (after − before)/(after + before).
 * Throws RangeError for what `assertCascade` refuses.
 *
 * Source: the lattice diagram of L. V. Bewley, Traveling Waves on Transmission Systems, 2nd ed., 1951.
 */
export function echoesOf(cascade: Cascade): Echo[] {
  assertCascade(cascade)
  const { before, sections, after } = cascade
  const closeness = SIMULTANEOUS * delayOf(sections)
  const impedances = [before, ...sections.map((section) => section.impedance), after]
  const joint = (index: number): Ratio => reflectionAt(impedances[index] ?? NaN, impedances[index + 1] ?? NaN)
  let seen: readonly Echo[] = [{ time: 0, amplitude: joint(sections.length) }]
  for (const [index, section] of [...sections.entries()].reverse()) {
    const behind = seen.map(({ time, amplitude }) => ({ time: time + 2 * section.delay, amplitude }))
    seen = throughJoint(joint(index), behind, closeness)
  }
  return [...seen]
}

function throughJoint(gamma: Ratio, behind: readonly Echo[], closeness: Seconds): Echo[] {
  const all: Echo[] = [{ time: 0, amplitude: gamma }]
  let power = behind.map(({ time, amplitude }) => ({ time, amplitude: amplitude * (1 - gamma * gamma) }))
  while (power.length > 0) {
    all.push(...power)
    power = product(power, behind, -gamma, closeness)
  }
  return merged(all, closeness)
}

function product(one: readonly Echo[], other: readonly Echo[], factor: Ratio, closeness: Seconds): Echo[] {
  const terms = one.flatMap((a) =>
    other.flatMap((b) => {
      const amplitude = factor * a.amplitude * b.amplitude
      return Math.abs(amplitude) < FAINTEST ? [] : [{ time: a.time + b.time, amplitude }]
    }),
  )
  return merged(terms, closeness)
}

/** In order of time, echoes of the same instant added up, vanishing ones left out. */
function merged(echoes: readonly Echo[], closeness: Seconds): Echo[] {
  const sums: { time: Seconds; amplitude: Ratio }[] = []
  for (const { time, amplitude } of [...echoes].sort((a, b) => a.time - b.time)) {
    const last = sums.at(-1)
    if (last !== undefined && time - last.time <= closeness) last.amplitude += amplitude
    else sums.push({ time, amplitude })
  }
  return sums.filter(({ amplitude }) => Math.abs(amplitude) >= FAINTEST)
}
