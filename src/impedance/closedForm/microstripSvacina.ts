import type { Ratio } from '../../units/quantity.ts'
import { assertCoveredLine, type CoveredLine } from './coveredLine.ts'
import { inPermittivity } from './inPermittivity.ts'
import type { Limit } from './limits.ts'
import type { LineConstants } from './lineConstants.ts'
import { microstripHammerstadJensen } from './microstripHammerstadJensen.ts'

/**
 * Wide microstrip under a flat cover, by conformal mapping for a strip of zero thickness. With H = 1 + c/h:
 *
 *     εeff = εr qa + εc (1 − qa)² / [ εc (1 − qa − qb) + qb ]
 *     W    = w/h + 2/π · ln[ 17.08 (w/2h + 0.92) ]
 *     qa   = 1 − ln(πW − 1)/(2W)
 *     qb   = 1 − qa − (1 − v)/(2W) · ln{ πW cos(πv/2)/[ π(H − ½) + πv/2 ] + sin(πv/2) }
 *     v    = 2/π · arctan{ 2π/(πW − 4) · (H − 1) }
 *
 * The impedance follows from the Hammerstad–Jensen air line with thickness, which the paper does not cover.
 * Known defect: as the cover vanishes, qb stays at a few per cent and the bare line is not recovered.
 *
 * Assumes: lossless, one infinite plane, zero thickness, flat cover, no dispersion, w/h >= 1.
 * Source: J. Svacina, "Analysis of multilayer microstrip lines by a conformal mapping method", IEEE Trans. MTT-40,
 * 769–772, April 1992, wide strips; coefficients from memory.
 */
export function microstripSvacina(line: CoveredLine): LineConstants {
  assertCoveredLine(line)
  const { width: w, height: h, coverThickness: c } = line
  return inPermittivity(
    microstripHammerstadJensen(line),
    svacinaPermittivity(w / h, c / h, line.relativePermittivity, line.coverPermittivity),
  )
}

/** Range of the wide form; the paper's form for narrower strips could not be confirmed and is not used. */
export const LIMITS: readonly Limit[] = [
  { quantity: 'width/height', min: 1, max: 100 },
  { quantity: 'thickness/height', min: 0, max: 0 },
]

export function svacinaPermittivity(
  widthToHeight: Ratio,
  coverToHeight: Ratio,
  relativePermittivity: Ratio,
  coverPermittivity: Ratio,
): Ratio {
  const { qa, qb } = fillingShares(widthToHeight, coverToHeight)
  const rest = 1 - qa
  const air = coverPermittivity * (rest - qb) + qb
  return relativePermittivity * qa + (coverPermittivity * rest * rest) / air
}

function fillingShares(
  widthToHeight: Ratio,
  coverToHeight: Ratio,
): { readonly qa: Ratio; readonly qb: Ratio } {
  const W = widthToHeight + (2 / Math.PI) * Math.log(17.08 * (widthToHeight / 2 + 0.92))
  const qa = 1 - Math.log(Math.PI * W - 1) / (2 * W)
  const v = (2 / Math.PI) * Math.atan(((2 * Math.PI) / (Math.PI * W - 4)) * coverToHeight)
  const angle = (Math.PI * v) / 2
  const mapped = (Math.PI * W * Math.cos(angle)) / (Math.PI * (coverToHeight + 0.5) + angle) + Math.sin(angle)
  return { qa, qb: 1 - qa - ((1 - v) / (2 * W)) * Math.log(mapped) }
}
