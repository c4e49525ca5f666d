import type { Ohms, Ratio } from '../../units/quantity.ts'

/** What a closed form for one mode of one line says: lossless, quasi-static. */
export interface LineConstants {
  readonly impedance: Ohms
  readonly effectivePermittivity: Ratio
}
