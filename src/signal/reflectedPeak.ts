import FFT from 'fft.js'
import type { Ratio, Seconds } from '../units/quantity.ts'
import type { Cascade } from './cascade.ts'
import { settlingOf, type EdgeShape } from './edge.ts'
import { reflectedPulse, type ReflectedPulse } from './reflectedPulse.ts'

/** A summit between two samples is no more than this share of the highest sample above its own. */
const NEARLY_HIGHEST: Ratio = 0.85
const NEWTON_STEPS = 4
/** Samples that rise above both their neighbours by less than this share of the highest lie on a plateau. */
const FLAT: Ratio = 1e-6
/** Digits beyond this are those of the arithmetic, and must not decide which of two equal necks is the worse. */
const RESOLUTION: Ratio = 1e-8

/**
 * Largest excursion, with its sign, of what a cascade sends back of an edge beyond the device behind it, as a share
 * of the edge's height: of the reflection itself where the line carries on unchanged (`after` equal to `before`).
 *
 * The pulse is sampled as closely as its bandwidth asks, and the highest samples are carried to their summits by
 * Newton's method on the slope. Exact to 2e-6 of the edge for Gaussian edges; a straight ramp has its corners rounded
 * over a few hundredths of its length, which takes up to three thousandths of the largest echo from a summit that is a
 * corner, and nothing from one that is a plateau.
 *
 * Throws RangeError for impedances, delays and rise times that are not positive and finite.
 */
export function reflectedPeak(cascade: Cascade, edge: EdgeShape): Ratio {
  const pulse = reflectedPulse(cascade, edge)
  const samples = sampled(pulse, settlingOf(edge).step)
  const heights = samples.map(Math.abs)
  const step = pulse.period / samples.length
  const highest = heights.reduce((most, height) => Math.max(most, height), 0)
  let peak = 0
  for (const [index, height] of heights.entries()) {
    const [previous, next] = [heights[index - 1] ?? 0, heights[index + 1] ?? 0]
    if (!(height >= previous && height > next) || height < NEARLY_HIGHEST * highest) continue
    // A parabola through the three rises above the middle one by an eighth of this at most: thousands of them on a plateau.
    const isFlat = 2 * height - previous - next < FLAT * highest
    const summit = isFlat ? Number(samples[index]) : summitNear(pulse, pulse.start + index * step, step)
    if (Math.abs(summit) > Math.abs(peak)) peak = summit
  }
  return Math.round(peak / RESOLUTION) * RESOLUTION
}

/** A power of two of samples over the period, no more than `step` apart. */
function sampled({ period, start, real, imaginary }: ReflectedPulse, step: Seconds): number[] {
  const size = 2 ** Math.ceil(Math.log2(Math.max(period / step, 2 * real.length)))
  const transform = transformOf(size)
  const spectrum = transform.createComplexArray() as number[]
  spectrum.fill(0)
  for (let index = 0; index < real.length; index += 1) {
    const phase = (2 * Math.PI * index * start) / period
    const [cos, sin] = [Math.cos(phase), Math.sin(phase)]
    const [re, im] = [Number(real[index]), Number(imaginary[index])]
    spectrum[2 * index] = size * (re * cos - im * sin)
    spectrum[2 * index + 1] = size * (re * sin + im * cos)
  }
  const time = transform.createComplexArray() as number[]
  transform.inverseTransform(time, spectrum)
  return Array.from({ length: size }, (_, sample) => {
    // Half-odd frequencies: half a turn more over the period.
    const phase = Math.PI * (start / period + sample / size)
    return Math.cos(phase) * Number(time[2 * sample]) - Math.sin(phase) * Number(time[2 * sample + 1])
  })
}

const transforms = new Map<number, FFT>()

/** Its tables depend on the size alone. */
function transformOf(size: number): FFT {
  const known = transforms.get(size) ?? new FFT(size)
  transforms.set(size, known)
  return known
}

/** Value at the summit within a step of a sample. */
function summitNear(pulse: ReflectedPulse, guess: Seconds, step: Seconds): Ratio {
  let best = lookAt(pulse, guess)
  let time = guess
  for (let count = 0; count < NEWTON_STEPS; count += 1) {
    const { slope, curvature } = lookAt(pulse, time)
    const next = time - slope / curvature
    if (!(Math.abs(next - guess) <= step)) break
    time = next
    const there = lookAt(pulse, time)
    if (Math.abs(there.value) > Math.abs(best.value)) best = there
  }
  return best.value
}

/** Value, slope and curvature of the pulse: Re Σ P e^{jωt} over the half-odd frequencies, and its derivatives. */
function lookAt(
  { period, real, imaginary }: ReflectedPulse,
  time: Seconds,
): { value: Ratio; slope: number; curvature: number } {
  const spacing = (2 * Math.PI) / period
  const [turnRe, turnIm] = [Math.cos(spacing * time), Math.sin(spacing * time)]
  let [re, im] = [Math.cos((spacing * time) / 2), Math.sin((spacing * time) / 2)]
  let value = 0
  let slope = 0
  let curvature = 0
  for (let index = 0; index < real.length; index += 1) {
    const omega = (index + 0.5) * spacing
    const [a, b] = [Number(real[index]), Number(imaginary[index])]
    const part = a * re - b * im
    value += part
    slope -= omega * (a * im + b * re)
    curvature -= omega * omega * part
    const turned = re * turnRe - im * turnIm
    im = re * turnIm + im * turnRe
    re = turned
  }
  return { value, slope, curvature }
}
