import { complex, divide, multiply, scale, subtract } from '../numerics/complex.ts'
import type { Complex, Ohms, Quantity, Ratio, Seconds } from '../units/quantity.ts'
import { assertCascade, delayOf, reflectionAt, type Cascade, type UniformSection } from './cascade.ts'
import { edgeSpectrum, settlingOf, type EdgeShape } from './edge.ts'

type RadiansPerSecond = Quantity<'rad/s'>

/** Echoes fainter than this are let run into one another. */
const FAINTEST: Ratio = 1e-6
/** Round trips after which even what hardly loses anything is cut off. */
const MOST_ROUND_TRIPS = 200

/**
 * What a cascade sends back of an edge more than the device behind it would at the end of an equally long stretch of
 * the line the wave arrives on: a pulse in time, of which this is the spectrum at odd multiples of half the inverse of
 * `period`, the first `count` of them. Outside that period the pulse is over.
 */
export interface ReflectedPulse {
  readonly period: Seconds
  /** First instant of the period; the edge is at its middle (Gaussian) or begins (ramp) at 0. */
  readonly start: Seconds
  readonly real: Float64Array
  readonly imaginary: Float64Array
}

/**
 * The reflection ρ(ω) of the cascade, less Γ e^{−2jωD} of the device alone, times the spectrum of the edge's slope
 * over jω. Half-odd frequencies never meet the quotient at rest; repetitions of the pulse alternate in sign.
 *
 * Throws RangeError for what `assertCascade` refuses, and unless the rise time is positive.
 */
export function reflectedPulse(cascade: Cascade, edge: EdgeShape): ReflectedPulse {
  assertCascade(cascade)
  if (!(edge.riseTime > 0)) throw new RangeError(`rise time must be above 0, got ${edge.riseTime} s`)
  const { before, sections, after } = cascade
  const { start, end, highest } = settlingOf(edge)
  const period = end - start + ringing(cascade)
  const spacing = (2 * Math.PI) / period
  const count = Math.ceil(highest / spacing)
  const [real, imaginary] = [new Float64Array(count), new Float64Array(count)]
  const [atRest, arrival] = [reflectionAt(before, after), 2 * delayOf(sections)]
  for (let index = 0; index < count; index += 1) {
    const omega = (index + 0.5) * spacing
    const whole = reflectionInto(cascade, omega)
    const device = scale(turned(omega * arrival), atRest)
    const value = multiply(
      divide(subtract(whole, device), complex(0, omega)),
      scale(edgeSpectrum(edge, omega), 2 / period),
    )
    real[index] = value.re
    imaginary[index] = value.im
  }
  return { period, start, real, imaginary }
}

/** Time from the first echo until what runs to and fro between any two joints has faded. */
function ringing(cascade: Cascade): Seconds {
  const { sections } = cascade
  const joints = jointsOf(cascade)
  let longest = 0
  for (const [near, first] of joints.entries()) {
    let apart = 0
    for (const [index, second] of joints.slice(near + 1).entries()) {
      apart += sections[near + index]?.delay ?? 0
      longest = Math.max(longest, apart * roundTrips(first * second))
    }
  }
  for (const [index, { hanging }] of sections.entries()) {
    // Its open end sends everything back.
    if (hanging) longest = Math.max(longest, hanging.delay * roundTrips(rootOf(cascade, index)))
  }
  return 2 * (delayOf(sections) + longest)
}

function roundTrips(share: Ratio): number {
  if (share <= FAINTEST) return 1
  return share >= 1 ? MOST_ROUND_TRIPS : Math.min(MOST_ROUND_TRIPS, Math.log(FAINTEST) / Math.log(share))
}

/** Size of the reflection at each joint, the larger of what its two sides see. */
function jointsOf({ before, sections, after }: Cascade): Ratio[] {
  const impedances = [before, ...sections.map(({ impedance }) => impedance), after]
  return impedances.slice(1).map((to, index) => {
    const from = impedances[index] ?? to
    const hanging = sections[index]?.hanging
    if (!hanging) return Math.abs(reflectionAt(from, to))
    return Math.max(
      Math.abs(reflectionAt(from, parallel(to, hanging.impedance))),
      Math.abs(reflectionAt(to, parallel(from, hanging.impedance))),
    )
  })
}

/** Size of what a hanging line sees of the joint that it hangs on. */
function rootOf({ before, sections }: Cascade, index: number): Ratio {
  const from = sections[index - 1]?.impedance ?? before
  const section = sections[index]
  if (!section?.hanging) return 0
  return Math.abs(reflectionAt(section.hanging.impedance, parallel(from, section.impedance)))
}

function parallel(one: Ohms, other: Ohms): Ohms {
  return (one * other) / (one + other)
}

/**
 * Reflection seen on the line `before`, from the far end to the near one: each section turns the reflection that it
 * sees by twice its delay, and an open line in parallel adds the susceptance tan(ωt)/Z.
 *
 * Source: D. M. Pozar, Microwave Engineering, 4th ed., 2012, equations 2.35, 2.44 and 2.46c.
 */
function reflectionInto({ before, sections, after }: Cascade, omega: RadiansPerSecond): Complex {
  let admittance = complex(1 / after)
  for (let index = sections.length - 1; index >= 0; index -= 1) {
    const section = sections[index]
    if (section !== undefined) admittance = through(section, admittance, omega)
  }
  return reflectionOf(admittance, 1 / before)
}

function through(
  { impedance, delay, hanging }: UniformSection,
  behind: Complex,
  omega: RadiansPerSecond,
): Complex {
  const own = 1 / impedance
  const seen = multiply(reflectionOf(behind, own), turned(2 * omega * delay))
  const admittance = scale(divide(complex(1 - seen.re, -seen.im), complex(1 + seen.re, seen.im)), own)
  if (!hanging) return admittance
  return complex(admittance.re, admittance.im + Math.tan(omega * hanging.delay) / hanging.impedance)
}

/** (Y₀ − Y)/(Y₀ + Y). */
function reflectionOf(admittance: Complex, own: Quantity<'S'>): Complex {
  return divide(complex(own - admittance.re, -admittance.im), complex(own + admittance.re, admittance.im))
}

/** e^{−jφ}. */
function turned(phase: number): Complex {
  return complex(Math.cos(phase), -Math.sin(phase))
}
