import { coverFill } from './coverFill.ts'
import { assertEmbeddedLine, type EmbeddedLine } from './embeddedLine.ts'
import type { Limit } from './limits.ts'
import type { LineConstants } from './lineConstants.ts'
import { assertMicrostripPair, type MicrostripPair } from './microstripPair.ts'
import { microstripPairThick } from './microstripPairThick.ts'
import type { PairConstants } from './pairConstants.ts'

/** An edge-coupled pair under a flat-topped cover of one or more sheets, the nearest first, air above. */
export type EmbeddedMicrostripPair = MicrostripPair & EmbeddedLine

/**
 * Edge-coupled pair embedded under a flat-topped cover that reaches c above the strips' upper faces and fills the gap
 * between them. As the coated pair, each mode is led by the filling law of coverFill.ts, with
 *
 *     even: x(c) = 1.21 [(c + 0.8 t)/h]^0.64 (w/h)^(−0.35) [1 − 0.43 e^(−0.72 s/h)]
 *     odd:  x(c) = [(c + 0.53 t)/h]^0.76 (w/h)^(−0.26) [1 + 0.81 (h/s)^0.8]
 *
 * Of several sheets each counts for the step of the filling that it makes, as on the single embedded line.
 *
 * Assumes: lossless, one infinite plane, flat cover, no dispersion. Own fit, this project, on the thick pair, to half of
 * 400 cross-sections solved by boundary elements; the other half agrees within 1.6 % (even) and 1.5 % (odd).
 */
export function microstripPairEmbedded(pair: EmbeddedMicrostripPair): PairConstants {
  assertMicrostripPair(pair)
  assertEmbeddedLine(pair)
  const bare = microstripPairThick(pair)
  return {
    even: filled(bare.even, pair, evenReach),
    odd: filled(bare.odd, pair, oddReach),
  }
}

/** The box of the fit, as ratios. */
export const LIMITS: readonly Limit[] = [
  { quantity: 'width/height', min: 0.2, max: 5 },
  { quantity: 'gap/height', min: 0.2, max: 15 },
  { quantity: 'thickness/gap', min: 0, max: 0.8 },
  { quantity: 'cover/height', min: 0.03, max: 5 },
  { quantity: 'relative permittivity', min: 3, max: 4.5 },
  { quantity: 'cover permittivity', min: 3, max: 4.5 },
]

type Reach = (pair: EmbeddedMicrostripPair, cover: number) => number

function evenReach({ width: w, thickness: t, height: h, gap: s }: EmbeddedMicrostripPair, c: number): number {
  return 1.21 * ((c + 0.8 * t) / h) ** 0.64 * (w / h) ** -0.35 * (1 - 0.43 * Math.exp((-0.72 * s) / h))
}

function oddReach({ width: w, thickness: t, height: h, gap: s }: EmbeddedMicrostripPair, c: number): number {
  return ((c + 0.53 * t) / h) ** 0.76 * (w / h) ** -0.26 * (1 + 0.81 * (h / s) ** 0.8)
}

function filled(bare: LineConstants, pair: EmbeddedMicrostripPair, reach: Reach): LineConstants {
  let reached = 0
  let left = 1
  let weighted = 0
  for (const sheet of pair.covers) {
    reached += sheet.thickness
    const next = Math.exp(-reach(pair, reached))
    weighted += sheet.relativePermittivity * (left - next)
    left = next
  }
  return coverFill(bare, pair.relativePermittivity, weighted / (1 - left), reach(pair, reached))
}
