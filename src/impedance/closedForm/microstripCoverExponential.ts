import { assertCoveredLine, type CoveredLine } from './coveredLine.ts'
import { inPermittivity } from './inPermittivity.ts'
import type { Limit } from './limits.ts'
import type { LineConstants } from './lineConstants.ts'
import { microstripHammerstadJensen } from './microstripHammerstadJensen.ts'

/**
 * Microstrip under a coat or cover, by one exponential between the bare line and the buried one:
 *
 *     εeff = ee e^(−2c/h) + εr (1 − e^(−2c/h))
 *
 * with ee of the bare Hammerstad–Jensen line with thickness and c the dielectric above the strip. The cover is
 * taken to be of the substrate's material.
 *
 * Assumes: lossless, one infinite plane, no dispersion.
 * Source: unattributed, common in application notes; from memory.
 */
export function microstripCoverExponential(line: CoveredLine): LineConstants {
  assertCoveredLine(line)
  const { height: h, coverThickness: c, relativePermittivity: er } = line
  const bare = microstripHammerstadJensen(line)
  const left = Math.exp((-2 * c) / h)
  return inPermittivity(bare, bare.effectivePermittivity * left + er * (1 - left))
}

/** None is printed beyond one material for substrate and cover. */
export const LIMITS: readonly Limit[] = [{ quantity: 'permittivity contrast', min: 1, max: 1.01 }]
