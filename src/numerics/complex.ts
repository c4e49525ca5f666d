import type { Complex } from '../units/quantity.ts'

/** Complex arithmetic on plain records, for matrices of a few elements at a few thousand frequencies. */

export function complex(re: number, im = 0): Complex {
  return { re, im }
}

export function add(a: Complex, b: Complex): Complex {
  return { re: a.re + b.re, im: a.im + b.im }
}

export function subtract(a: Complex, b: Complex): Complex {
  return { re: a.re - b.re, im: a.im - b.im }
}

export function multiply(a: Complex, b: Complex): Complex {
  return { re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re }
}

export function scale(a: Complex, factor: number): Complex {
  return { re: a.re * factor, im: a.im * factor }
}

/**
 * Quotient a / b by Smith's method, which neither overflows nor underflows where |b|² would.
 *
 * Throws RangeError when b is zero.
 *
 * Source: R. L. Smith, "Algorithm 116: complex division", Communications of the ACM 5, 435, 1962.
 */
export function divide(a: Complex, b: Complex): Complex {
  if (b.re === 0 && b.im === 0) throw new RangeError('complex division by zero')
  if (Math.abs(b.re) >= Math.abs(b.im)) {
    const ratio = b.im / b.re
    const denominator = b.re + b.im * ratio
    return { re: (a.re + a.im * ratio) / denominator, im: (a.im - a.re * ratio) / denominator }
  }
  const ratio = b.re / b.im
  const denominator = b.re * ratio + b.im
  return { re: (a.re * ratio + a.im) / denominator, im: (a.im * ratio - a.re) / denominator }
}

export function magnitude(a: Complex): number {
  return Math.hypot(a.re, a.im)
}

/** cosh of a complex argument: cosh x cos y + j sinh x sin y for x + j y. */
export function hyperbolicCosine(a: Complex): Complex {
  return { re: Math.cosh(a.re) * Math.cos(a.im), im: Math.sinh(a.re) * Math.sin(a.im) }
}

/** sinh of a complex argument: sinh x cos y + j cosh x sin y for x + j y. */
export function hyperbolicSine(a: Complex): Complex {
  return { re: Math.sinh(a.re) * Math.cos(a.im), im: Math.cosh(a.re) * Math.sin(a.im) }
}
