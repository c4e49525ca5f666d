import { add, divide, scale, subtract } from '../../src/numerics/complex.ts'
import type { ChainMatrix } from '../../src/signal/scattering.ts'
import type { Complex, Ohms } from '../../src/units/quantity.ts'

/**
 * Reflection seen on a line `before` that runs into a cascade with `after` behind it:
 * ρ = (Z_in − Z_before)/(Z_in + Z_before) with Z_in = (A Z_after + B)/(C Z_after + D).
 *
 * Source: D. M. Pozar, Microwave Engineering, 4th ed., 2012, section 4.4.
 */
export function reflectionInto(matrix: ChainMatrix, before: Ohms, after: Ohms): Complex {
  const voltage = add(scale(matrix.a, after), matrix.b)
  const current = add(scale(matrix.c, after), matrix.d)
  const returned = scale(current, before)
  return divide(subtract(voltage, returned), add(voltage, returned))
}
