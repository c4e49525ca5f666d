import { assertCoveredLine, type CoveredLine } from './coveredLine.ts'
import { inPermittivity } from './inPermittivity.ts'
import type { Limit } from './limits.ts'
import type { LineConstants } from './lineConstants.ts'
import { microstripHammerstadJensen } from './microstripHammerstadJensen.ts'

/**
 * Embedded microstrip with substrate and cover of one material. The dielectric height H above the plane sets the
 * effective permittivity, the air line is that of Hammerstad and Jensen with thickness:
 *
 *     εeff = εr [ 1 − exp(−1.55 H/h) ],   H = h + c,   c from the strip's upper face to the air
 *
 * The rule is printed with a simple logarithm for the impedance, which is 10 % low on average and up to 40 %;
 * on an accurate air line the exponential itself is good to a few per cent. The cover's permittivity is not used.
 *
 * Assumes: lossless, one infinite plane, one material, flat cover, no dispersion.
 * Source: the buried-microstrip rule of IPC-2141; H. Johnson, M. Graham, High-Speed Digital Design, 1993;
 * coefficient from memory.
 */
export function microstripEmbeddedExponential(line: CoveredLine): LineConstants {
  assertCoveredLine(line)
  const { height: h, coverThickness: c, relativePermittivity: er } = line
  return inPermittivity(microstripHammerstadJensen(line), er * -Math.expm1(-1.55 * (1 + c / h)))
}

/** Quoted range of the buried-microstrip rule, from memory; one material. */
export const LIMITS: readonly Limit[] = [
  { quantity: 'width/height', min: 0.1, max: 3 },
  { quantity: 'relative permittivity', min: 1, max: 15 },
  { quantity: 'permittivity contrast', min: 1, max: 1.01 },
]
