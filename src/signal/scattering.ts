import {
  add,
  complex,
  divide,
  hyperbolicCosine,
  hyperbolicSine,
  multiply,
  scale,
  subtract,
} from '../numerics/complex.ts'
import type { Complex, Hertz, Ohms, Quantity } from '../units/quantity.ts'
import type { UniformLine, UniformSection } from './cascade.ts'

/**
 * Two-ports in the frequency domain. Time dependence e^{+jωt}; port 1 is where the wave arrives.
 *
 * Source: D. M. Pozar, Microwave Engineering, 4th ed., 2012, tables 4.1 and 4.2.
 */
export interface ChainMatrix {
  readonly a: Complex
  /** Ohms. */
  readonly b: Complex
  /** Siemens. */
  readonly c: Complex
  readonly d: Complex
}

export interface Scattering {
  readonly s11: Complex
  readonly s12: Complex
  readonly s21: Complex
  readonly s22: Complex
}

/** A section that may attenuate: nepers over its whole length, at the frequency asked about. */
export interface LossySection extends UniformSection {
  readonly attenuation?: Quantity<'Np'>
}

const IDENTITY: ChainMatrix = { a: complex(1), b: complex(0), c: complex(0), d: complex(1) }

/**
 * Chain (ABCD) matrix of a uniform line:  [ cosh γl, Z sinh γl ; sinh γl / Z, cosh γl ],  γl = α + jωt.
 *
 * Loss acts on propagation only; the impedance stays real, an error of the order α/(ωt).
 */
function lineMatrix(section: LossySection, frequency: Hertz): ChainMatrix {
  const { impedance, delay, attenuation = 0 } = section
  if (!(impedance > 0)) throw new RangeError(`impedance must be above 0, got ${impedance} ohm`)
  const travel = complex(attenuation, 2 * Math.PI * frequency * delay)
  const cosh = hyperbolicCosine(travel)
  const sinh = hyperbolicSine(travel)
  return { a: cosh, b: scale(sinh, impedance), c: scale(sinh, 1 / impedance), d: cosh }
}

/** First, then second, as the wave meets them. */
function chain(first: ChainMatrix, second: ChainMatrix): ChainMatrix {
  return {
    a: add(multiply(first.a, second.a), multiply(first.b, second.c)),
    b: add(multiply(first.a, second.b), multiply(first.b, second.d)),
    c: add(multiply(first.c, second.a), multiply(first.d, second.c)),
    d: add(multiply(first.c, second.b), multiply(first.d, second.d)),
  }
}

/** Of what hangs where a section begins, then of the section. */
export function cascadeMatrix(sections: readonly LossySection[], frequency: Hertz): ChainMatrix {
  return sections.reduce((matrix, section) => {
    const root = section.hanging ? chain(matrix, openMatrix(section.hanging, frequency)) : matrix
    return chain(root, lineMatrix(section, frequency))
  }, IDENTITY)
}

/** A lossless line in parallel that is open at its end: an admittance j tan(ωt)/Z across. */
function openMatrix({ impedance, delay }: UniformLine, frequency: Hertz): ChainMatrix {
  return { ...IDENTITY, c: complex(0, Math.tan(2 * Math.PI * frequency * delay) / impedance) }
}

/** Scattering parameters between two equal real reference impedances. */
export function scatteringOf(matrix: ChainMatrix, reference: Ohms): Scattering {
  if (!(reference > 0)) throw new RangeError(`reference impedance must be above 0, got ${reference} ohm`)
  const { a, d } = matrix
  const b = scale(matrix.b, 1 / reference)
  const c = scale(matrix.c, reference)
  const denominator = add(add(a, b), add(c, d))
  const determinant = subtract(multiply(matrix.a, matrix.d), multiply(matrix.b, matrix.c))
  return {
    s11: divide(subtract(add(a, b), add(c, d)), denominator),
    s12: divide(scale(determinant, 2), denominator),
    s21: divide(complex(2), denominator),
    s22: divide(subtract(add(b, d), add(a, c)), denominator),
  }
}
