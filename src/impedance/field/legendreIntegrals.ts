/**
 * Integrals of Legendre polynomials over −1 … 1 against the logarithm and its derivative, in closed form:
 *
 *     ∫ P_k(t) / (ζ − t) dt = 2 Q_k(ζ)                               (Neumann)
 *     ∫ P_k(t) ln(ζ − t) dt = 2 [Q_{k+1}(ζ) − Q_{k−1}(ζ)] / (2k + 1),  k ≥ 1, by parts
 *     ∫ ln(ζ − t) dt        = (ζ + 1) ln(ζ + 1) − (ζ − 1) ln(ζ − 1) − 2
 *
 * Q_k are Legendre functions of the second kind. The upward recurrence loses a factor of about 2|ζ| a step,
 * so beyond FAR the descending series takes over.
 *
 * Source: NIST Digital Library of Mathematical Functions, 14.10.3 (recurrence), 14.12.13 (Neumann),
 * 14.3.7 (descending series).
 */
const FAR_SQUARED = 64

/** Scratch for Q_0 … Q_{count−1}: real and imaginary parts. */
export interface SecondKind {
  readonly re: Float64Array
  readonly im: Float64Array
}

export function secondKind(count: number): SecondKind {
  return { re: new Float64Array(count), im: new Float64Array(count) }
}

/**
 * Fills Q_0 … Q_{count−1} at ζ = x + i y. On the cut (y = 0, |x| < 1) the mean of both sides, which is the
 * principal value of the integrals above.
 */
export function fillSecondKind(q: SecondKind, count: number, x: number, y: number): void {
  if (x * x + y * y > FAR_SQUARED) fillFar(q, count, x, y)
  else fillNear(q, count, x, y)
}

function fillNear(q: SecondKind, count: number, x: number, y: number): void {
  const above = (x + 1) * (x + 1) + y * y
  const below = (x - 1) * (x - 1) + y * y
  recur(q, count, x, y, 0.25 * Math.log(above / below), -0.5 * seenUnder(x, y))
}

/** Angle that −1 … 1 is seen under from x + i y, arg(ζ − 1) − arg(ζ + 1); 0 on the cut. */
function seenUnder(x: number, y: number): number {
  return y === 0 ? 0 : Math.atan2(2 * y, (x - 1) * (x + 1) + y * y)
}

/** Q_0 … Q_{count−1} from Q_0, upwards. */
function recur(
  { re, im }: SecondKind,
  count: number,
  x: number,
  y: number,
  ofRe: number,
  ofIm: number,
): void {
  let previousRe = ofRe
  let previousIm = ofIm
  re[0] = previousRe
  im[0] = previousIm
  let currentRe = x * previousRe - y * previousIm - 1
  let currentIm = x * previousIm + y * previousRe
  for (let k = 1; k < count; k += 1) {
    re[k] = currentRe
    im[k] = currentIm
    const a = (2 * k + 1) / (k + 1)
    const b = k / (k + 1)
    const nextRe = a * (x * currentRe - y * currentIm) - b * previousRe
    const nextIm = a * (x * currentIm + y * currentRe) - b * previousIm
    previousRe = currentRe
    previousIm = currentIm
    currentRe = nextRe
    currentIm = nextIm
  }
}

/** Q_k(ζ) = k! / (2k + 1)!! · ζ^(−k−1) · [1 + (k+1)(k+2) / (2(2k+3)) ζ⁻² + …]; three terms give 1e-7 at |ζ| = 8. */
function fillFar({ re, im }: SecondKind, count: number, x: number, y: number): void {
  const size = x * x + y * y
  const inverseRe = x / size
  const inverseIm = -y / size
  const squareRe = inverseRe * inverseRe - inverseIm * inverseIm
  const squareIm = 2 * inverseRe * inverseIm
  let leadRe = inverseRe
  let leadIm = inverseIm
  for (let k = 0; k < count; k += 1) {
    const first = ((k + 1) * (k + 2)) / (2 * (2 * k + 3))
    const second = (first * (k + 3) * (k + 4)) / (4 * (2 * k + 5))
    const third = (second * (k + 5) * (k + 6)) / (6 * (2 * k + 7))
    const innerRe = second + third * squareRe
    const innerIm = third * squareIm
    const middleRe = first + innerRe * squareRe - innerIm * squareIm
    const middleIm = innerRe * squareIm + innerIm * squareRe
    const sumRe = 1 + middleRe * squareRe - middleIm * squareIm
    const sumIm = middleRe * squareIm + middleIm * squareRe
    re[k] = leadRe * sumRe - leadIm * sumIm
    im[k] = leadRe * sumIm + leadIm * sumRe
    const factor = (k + 1) / (2 * k + 3)
    const nextRe = factor * (leadRe * inverseRe - leadIm * inverseIm)
    leadIm = factor * (leadRe * inverseIm + leadIm * inverseRe)
    leadRe = nextRe
  }
}

/**
 * Real part of ∫ ln(ζ − t) dt, ζ = x + i y; leaves Q_0 … Q_{count−1} in `q`, which begin with the same logarithms and the
 * same angle.
 */
export function logIntegral(q: SecondKind, count: number, x: number, y: number): number {
  const size = x * x + y * y
  if (size > FAR_SQUARED) {
    fillFar(q, count, x, y)
    // 2 ln ζ − Σ 2 / (2n (2n+1)) ζ^(−2n)
    const squareRe = (x * x - y * y) / (size * size)
    const squareIm = (-2 * x * y) / (size * size)
    const fourthRe = squareRe * squareRe - squareIm * squareIm
    const sixthRe = fourthRe * squareRe - 2 * squareRe * squareIm * squareIm
    return Math.log(size) - squareRe / 3 - fourthRe / 10 - sixthRe / 21
  }
  const toStart = 0.5 * Math.log((x + 1) * (x + 1) + y * y)
  const toEnd = 0.5 * Math.log((x - 1) * (x - 1) + y * y)
  const angle = seenUnder(x, y)
  recur(q, count, x, y, 0.5 * (toStart - toEnd), -0.5 * angle)
  // At either end the distance is nothing, and so is its product with the logarithm.
  const upper = toStart === -Infinity ? 0 : (x + 1) * toStart
  const lower = toEnd === -Infinity ? 0 : (x - 1) * toEnd
  return upper - lower + y * angle - 2
}
