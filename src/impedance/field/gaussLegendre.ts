/** Nodes and weights of Gauss–Legendre quadrature on −1 … 1. */
export interface Quadrature {
  readonly nodes: readonly number[]
  readonly weights: readonly number[]
}

const known = new Map<number, Quadrature>()

/**
 * `count` points, exact for polynomials up to degree 2 count − 1. Newton's iteration from Chebyshev's nodes.
 * Source: NIST Digital Library of Mathematical Functions, 3.5(v); P_n by 14.10.3.
 */
export function gaussLegendre(count: number): Quadrature {
  const kept = known.get(count)
  if (kept) return kept
  const roots = Array.from({ length: count }, (_, index) => {
    let x = -Math.cos((Math.PI * (index + 0.75)) / (count + 0.5))
    for (let iteration = 0; iteration < 20; iteration += 1) {
      const { value, slope } = legendre(count, x)
      x -= value / slope
    }
    return { x, weight: 2 / ((1 - x * x) * legendre(count, x).slope ** 2) }
  })
  const made = { nodes: roots.map((root) => root.x), weights: roots.map((root) => root.weight) }
  known.set(count, made)
  return made
}

/** P_n(x) and its derivative, |x| < 1. */
function legendre(degree: number, x: number): { value: number; slope: number } {
  let previous = 1
  let value = x
  for (let k = 1; k < degree; k += 1) {
    ;[previous, value] = [value, ((2 * k + 1) * x * value - k * previous) / (k + 1)]
  }
  return { value, slope: (degree * (x * value - previous)) / (x * x - 1) }
}

/** P_0(x) … P_{order−1}(x). */
export function legendreValues(order: number, x: number): number[] {
  const values = [1, x]
  for (let k = 1; k < order - 1; k += 1) {
    values.push(((2 * k + 1) * x * Number(values[k]) - k * Number(values[k - 1])) / (k + 1))
  }
  return values.slice(0, order)
}
