import type { Ratio } from '../../units/quantity.ts'
import { halfSpaceRatios } from './coplanarGhioneNaldi.ts'
import { assertCoplanarLine, type CoplanarLine } from './coplanarLine.ts'
import { WIDENING_SHARE, withSideGrounds, type CapacitancePair } from './coplanarSides.ts'
import type { Limit } from './limits.ts'
import type { LineConstants } from './lineConstants.ts'
import { microstripHammerstadJensen, widening } from './microstripHammerstadJensen.ts'

/**
 * Grounded coplanar line with thickness. The conformal ratios r, r3 of Ghione and Naldi, for a strip widened by 0.3
 * of what Hammerstad and Jensen give (Δu, at εr and in air), plus the side walls as plates across the gap:
 *
 *     Cd = 2 r + 2 εr r3 + 2 t/gap,   Ca = 2 r + 2 r3 + 2 t/gap       (over ε0)
 *
 * joined with the microstrip line by a smooth maximum (coplanarSides.ts), then Z = η0/√(Cd Ca), εeff = Cd/Ca.
 *
 * Assumes: lossless, quasi-static, infinite side grounds of the strip's thickness at the potential of the plane.
 * Source: own construction and fit, this project, to a boundary-element solution with εr = 4.
 */
export function coplanarSideWalls(line: CoplanarLine): LineConstants {
  assertCoplanarLine(line)
  return withSideGrounds(sideCapacitances(line, 1, 1), microstripHammerstadJensen(line))
}

/** The box of the fit, as ratios. */
export const LIMITS: readonly Limit[] = [
  { quantity: 'width/height', min: 0.2, max: 4 },
  { quantity: 'gap/height', min: 0.2, max: 5 },
  { quantity: 'thickness/gap', min: 0, max: 0.75 },
  { quantity: 'relative permittivity', min: 3, max: 4.5 },
]

/** Capacitances over ε0 with the given mean permittivities above the strip and between the side walls. */
export function sideCapacitances(line: CoplanarLine, above: Ratio, betweenWalls: Ratio): CapacitancePair {
  const { thickness: t, height: h, gap, relativePermittivity: er } = line
  const ratios = (permittivity: Ratio): ReturnType<typeof halfSpaceRatios> => {
    const a = (line.width + WIDENING_SHARE * widening(line.width / h, t / h, permittivity) * h) / 2
    return halfSpaceRatios(a, a + gap, h)
  }
  const filled = ratios(er)
  const empty = ratios(1)
  const walls = (2 * t) / gap
  return {
    dielectric: 2 * above * filled.open + 2 * er * filled.backed + betweenWalls * walls,
    air: 2 * empty.open + 2 * empty.backed + walls,
  }
}
