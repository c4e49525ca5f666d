/**
 * The kernel of a line charge between two planes, less the charge itself and its two nearest period images:
 *
 *     R(u) = ln [ sinh u / (u (1 + u²/π²)) ],   u = π (z − z′) / (2 · plate distance)
 *
 * Analytic for |u| < 2π, so that a short quadrature integrates it.
 * Source: Green's function of the parallel-plate region by images; the product for sinh, NIST Digital Library
 * of Mathematical Functions, 4.36.1, gives the poles taken out.
 */
const PI_SQUARED = Math.PI * Math.PI
/** Below |u|² of this a series is exact to 1e-13. */
const SMALL = 1e-3

/** Real part of R at u = re + i im. */
export function restValue(re: number, im: number): number {
  const size = re * re + im * im
  const squareRe = re * re - im * im
  const squareIm = 2 * re * im
  const pole = 0.5 * Math.log((1 + squareRe / PI_SQUARED) ** 2 + (squareIm / PI_SQUARED) ** 2)
  if (size < SMALL) return squareRe / 6 - (squareRe * squareRe - squareIm * squareIm) / 180 - pole
  // |sinh u|² = sinh² re + sin² im, scaled by exp(−2 |re|) against overflow.
  const grown = Math.abs(re)
  const decayed = Math.exp(-2 * grown)
  const scaled = ((1 - decayed) * (1 - decayed)) / 4 + Math.sin(im) ** 2 * decayed
  return grown + 0.5 * Math.log(scaled / size) - pole
}

/** R′(u) = coth u − 1/u − 2u / (π² + u²). */
export function restSlope(re: number, im: number): { re: number; im: number } {
  const size = re * re + im * im
  const squareRe = re * re - im * im
  const squareIm = 2 * re * im
  const underRe = PI_SQUARED + squareRe
  const underSize = underRe * underRe + squareIm * squareIm
  const poleRe = (2 * (re * underRe + im * squareIm)) / underSize
  const poleIm = (2 * (im * underRe - re * squareIm)) / underSize
  if (size < SMALL) {
    // coth u − 1/u = u/3 − u³/45
    const cubeRe = squareRe * re - squareIm * im
    const cubeIm = squareRe * im + squareIm * re
    return { re: re / 3 - cubeRe / 45 - poleRe, im: im / 3 - cubeIm / 45 - poleIm }
  }
  // coth u = (sinh 2re − i sin 2im) / (cosh 2re − cos 2im), scaled by exp(−2 |re|).
  const decayed = Math.exp(-2 * Math.abs(re))
  const under = 0.5 * (1 + decayed * decayed) - Math.cos(2 * im) * decayed
  const cothRe = (Math.sign(re) * 0.5 * (1 - decayed * decayed)) / under
  const cothIm = (-Math.sin(2 * im) * decayed) / under
  return { re: cothRe - re / size - poleRe, im: cothIm + im / size - poleIm }
}
