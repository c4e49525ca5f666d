import type { Ratio } from '../../units/quantity.ts'
import type { LineConstants } from './lineConstants.ts'

/** The same air line in another effective permittivity: Z √εeff, the air impedance, stays. */
export function inPermittivity(line: LineConstants, effectivePermittivity: Ratio): LineConstants {
  if (!(effectivePermittivity >= 1)) {
    throw new RangeError(`effective permittivity must be at least 1, got ${effectivePermittivity}`)
  }
  const impedance = line.impedance * Math.sqrt(line.effectivePermittivity / effectivePermittivity)
  return { impedance, effectivePermittivity }
}
