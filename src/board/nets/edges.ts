import { formatBitRate, formatSymbolRate, formatTime } from '../../units/format.ts'
import type { Seconds } from '../../units/quantity.ts'
import type { DataRate, Edge } from '../nets.ts'
import type { ClassText } from '../schema/classSchema.ts'

type EdgeText = NonNullable<ClassText['edge']>
type RateText = NonNullable<ClassText['data_rate']>

/**
 * Quantiles of the standard normal distribution at 0.9 and 0.8: the step response of a Gaussian
 * system is its distribution function, so they give the ratio of rise times between levels.
 * NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1.
 */
const QUANTILE_90 = 1.2815515655446004
const QUANTILE_80 = 0.8416212335729143

/** Rise time 10–90 % over that of 20–80 %: 1.523 for a Gaussian edge, 0.8/0.6 for a straight one. */
function riseTimeRatio(shape: Edge['shape']): number {
  return shape === 'gaussian' ? QUANTILE_90 / QUANTILE_80 : 0.8 / 0.6
}

/** An edge as stated, brought to 10–90 %. Between 10 and 90 % and Gaussian where it does not say. */
export function edgeOf({ rise, between = '10-90', shape = 'gaussian' }: EdgeText): Edge {
  const riseTime = between === '10-90' ? rise : rise * riseTimeRatio(shape)
  const levels = between.replace('-', '–')
  const basis = `${formatTime(rise)}, ${levels} %, ${shape === 'gaussian' ? 'Gaussian' : 'linear'}`
  return { riseTime, shape, basis }
}

/** Rate as bits and symbols; two levels where it does not say. */
export function dataRateOf({ rate, levels = 2 }: RateText): DataRate {
  const bitsPerSymbol = Math.log2(levels)
  const symbolRate = 'bits' in rate ? rate.bits / bitsPerSymbol : rate.symbols
  return { bitRate: symbolRate * bitsPerSymbol, levels, nyquist: symbolRate / 2 }
}

/** Share of the unit interval that an edge takes where only the rate is known. */
const EDGE_SHARE = 0.3

export const EDGE_FROM_RATE_SOURCE = 'rise time of 0.3 unit intervals, 20–80 %: rule of thumb, from memory'

/** A Gaussian edge of 0.3 unit intervals between 20 and 80 %. */
export function edgeFromRate(rate: DataRate): Edge {
  const interval: Seconds = 1 / (2 * rate.nyquist)
  const edge = edgeOf({ rise: EDGE_SHARE * interval, between: '20-80', shape: 'gaussian' })
  const shown = rate.levels === 2 ? formatBitRate(rate.bitRate) : formatSymbolRate(2 * rate.nyquist)
  return { ...edge, basis: `${edge.basis}, from ${shown}` }
}
