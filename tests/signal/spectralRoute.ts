import FFT from 'fft.js'
import { complex, divide, magnitude, multiply, scale, subtract } from '../../src/numerics/complex.ts'
import { delayOf, reflectionAt, type Cascade } from '../../src/signal/cascade.ts'
import { deviationOf, rampTimeOf, type EdgeShape } from '../../src/signal/edge.ts'
import { cascadeMatrix } from '../../src/signal/scattering.ts'
import type { Complex } from '../../src/units/quantity.ts'
import { reflectionInto } from './reflectionInto.ts'

/**
 * The peak by way of the chain matrices: the reflection of the ABCD cascade, less the echo of the device at rest,
 * times the spectrum of the edge, back to time by one long inverse transform of fft.js. Shares no code with the bounce
 * series, and with the source only the idea.
 *
 * What remains after the subtraction is a pulse, so the transform may treat it as periodic.
 */
export function spectralPeak(cascade: Cascade, edge: EdgeShape): number {
  const size = edge.shape === 'gaussian' ? 2 ** 14 : 2 ** 16
  const step = edge.shape === 'gaussian' ? deviationOf(edge.riseTime) / 16 : rampTimeOf(edge.riseTime) / 256
  const fft = new FFT(size)
  const spectrum = fft.createComplexArray() as number[]
  for (let bin = 0; bin < size; bin += 1) {
    const turns = bin <= size / 2 ? bin : bin - size
    const { re, im } = pulseAt(cascade, edge, turns / (size * step))
    spectrum[2 * bin] = re / step
    spectrum[2 * bin + 1] = im / step
  }
  const time = fft.createComplexArray() as number[]
  fft.inverseTransform(time, spectrum)
  let peak = 0
  for (let sample = 0; sample < size; sample += 1) {
    const value = time[2 * sample] ?? NaN
    if (Math.abs(value) > Math.abs(peak)) peak = value
  }
  return peak
}

function pulseAt(cascade: Cascade, edge: EdgeShape, frequency: number): Complex {
  // The quotient by jω has a finite limit at rest, which a frequency of no consequence stands in for.
  const f = frequency === 0 ? 1e-7 / (delayOf(cascade.sections) + edge.riseTime) : frequency
  const omega = 2 * Math.PI * f
  const matrix = cascadeMatrix(cascade.sections, f)
  const whole = reflectionInto(matrix, cascade.before, cascade.after)
  const echo = scale(
    turned(omega * 2 * delayOf(cascade.sections)),
    reflectionAt(cascade.before, cascade.after),
  )
  return multiply(divide(subtract(whole, echo), complex(0, omega)), edgeSpectrum(edge, omega))
}

/** e^{−jφ}. */
function turned(phase: number): Complex {
  return complex(Math.cos(phase), -Math.sin(phase))
}

/** Spectrum of the edge's slope, which has unit area. */
function edgeSpectrum(edge: EdgeShape, omega: number): Complex {
  if (edge.shape === 'gaussian') return complex(Math.exp(-((omega * deviationOf(edge.riseTime)) ** 2) / 2))
  const half = (omega * rampTimeOf(edge.riseTime)) / 2
  return half === 0 ? complex(1) : scale(turned(half), Math.sin(half) / half)
}

/** |Σ a e^{−jωt}| of a bounce series: what it amounts to at one frequency. */
export function seriesAt(echoes: readonly { time: number; amplitude: number }[], frequency: number): Complex {
  return echoes.reduce((sum, { time, amplitude }) => {
    const part = scale(turned(2 * Math.PI * frequency * time), amplitude)
    return { re: sum.re + part.re, im: sum.im + part.im }
  }, complex(0))
}

export function distance(a: Complex, b: Complex): number {
  return magnitude(subtract(a, b))
}
