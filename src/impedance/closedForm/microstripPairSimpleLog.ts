import type { Ohms } from '../../units/quantity.ts'
import { assertMicrostripPair, type MicrostripPair } from './microstripPair.ts'
import { microstripSimpleLog } from './microstripSimpleLog.ts'

/**
 * The simple differential rule for microstrip of many application notes. For comparison only: 54 % low to 36 % high
 * over fine lines.
 *
 *     Zdiff = 2 Z [1 − 0.48 exp(−0.96 s/h)],   Z by microstripSimpleLog.ts
 *
 * Source: IPC-2141; coefficients from memory.
 */
export function microstripPairSimpleLog(pair: MicrostripPair): Ohms {
  assertMicrostripPair(pair)
  return 2 * microstripSimpleLog(pair).impedance * (1 - 0.48 * Math.exp((-0.96 * pair.gap) / pair.height))
}
