import { FREE_SPACE_IMPEDANCE } from '../../units/constants.ts'
import type { Ratio } from '../../units/quantity.ts'
import type { LineConstants } from './lineConstants.ts'
import { smoothMaximum } from './smoothMaximum.ts'

/** Capacitance per metre over ε0 of a strip, in its dielectrics and with air in their place. */
export interface CapacitancePair {
  readonly dielectric: Ratio
  readonly air: Ratio
}

/**
 * A line with side grounds from its two limits: the capacitance that the side grounds make with the plane, and that
 * of the same line without side grounds. Each holds where it is the larger.
 */
export function withSideGrounds(sides: CapacitancePair, alone: LineConstants): LineConstants {
  const index = Math.sqrt(alone.effectivePermittivity)
  const dielectric = smoothMaximum(sides.dielectric, (FREE_SPACE_IMPEDANCE * index) / alone.impedance)
  const air = smoothMaximum(sides.air, FREE_SPACE_IMPEDANCE / (alone.impedance * index))
  return {
    impedance: FREE_SPACE_IMPEDANCE / Math.sqrt(dielectric * air),
    effectivePermittivity: dielectric / air,
  }
}

/** Share of the single line's widening by thickness that is left to a strip whose side walls count as plates. */
export const WIDENING_SHARE = 0.3
