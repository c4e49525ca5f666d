import type { Ohms } from '../../units/quantity.ts'
import { assertCentredStriplinePair, type CentredStriplinePair } from './striplinePair.ts'
import { striplineSimpleLog } from './striplineSimpleLog.ts'

/**
 * The simple differential rule for stripline of many application notes. For comparison only: 66 % low to 70 % high
 * over fine lines.
 *
 *     Zdiff = 2 Z [1 − 0.347 exp(−2.9 s/b)],   Z by striplineSimpleLog.ts
 *
 * Source: IPC-2141; coefficients from memory.
 */
export function striplinePairSimpleLog(pair: CentredStriplinePair): Ohms {
  assertCentredStriplinePair(pair)
  return 2 * striplineSimpleLog(pair) * (1 - 0.347 * Math.exp((-2.9 * pair.gap) / pair.spacing))
}
