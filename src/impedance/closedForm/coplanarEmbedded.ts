import { assertCoplanarLine, type CoplanarLine } from './coplanarLine.ts'
import { sideCapacitances } from './coplanarSideWalls.ts'
import { withSideGrounds } from './coplanarSides.ts'
import { assertEmbeddedLine, type EmbeddedLine } from './embeddedLine.ts'
import type { Limit } from './limits.ts'
import type { LineConstants } from './lineConstants.ts'
import { microstripFlatCoverFilling } from './microstripFlatCoverFilling.ts'

/**
 * Grounded coplanar line under a flat-topped cover of one or more sheets that fills the gaps. As
 * coplanarSideWalls.ts, with the walls in the nearest sheet and the half space above filled sheet by sheet:
 *
 *     εabove = 1 + Σ (εi − 1)(e^(−y(c(i−1))) − e^(−y(ci))),   y(c) = 2.6 c/√(gap w)
 *
 * and the embedded microstrip line (microstripFlatCoverFilling.ts) in place of the bare one.
 *
 * Assumes: as the parts.
 * Source: own construction and fit, this project, to a boundary-element solution of 250 lines under one sheet.
 */
export function coplanarEmbedded(line: CoplanarLine & EmbeddedLine): LineConstants {
  assertCoplanarLine(line)
  assertEmbeddedLine(line)
  let reached = 0
  let above = 1
  let left = 1
  for (const { thickness, relativePermittivity } of line.covers) {
    reached += thickness
    const next = Math.exp((-2.6 * reached) / Math.sqrt(line.gap * line.width))
    above += (relativePermittivity - 1) * (left - next)
    left = next
  }
  const walls = line.covers[0]?.relativePermittivity ?? 1
  return withSideGrounds(sideCapacitances(line, above, walls), microstripFlatCoverFilling(line))
}

/** The box of the fit, as ratios. */
export const LIMITS: readonly Limit[] = [
  { quantity: 'width/height', min: 0.2, max: 5 },
  { quantity: 'gap/height', min: 0.4, max: 4 },
  { quantity: 'thickness/gap', min: 0, max: 0.9 },
  { quantity: 'cover/height', min: 0.2, max: 4 },
  { quantity: 'relative permittivity', min: 3, max: 4.5 },
  { quantity: 'cover permittivity', min: 3, max: 4.5 },
]
