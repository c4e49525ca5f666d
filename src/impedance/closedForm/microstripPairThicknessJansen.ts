import type { Metres } from '../../units/quantity.ts'
import type { Limit } from './limits.ts'
import { widening } from './microstripHammerstadJensen.ts'
import { assertMicrostripPair, type MicrostripPair } from './microstripPair.ts'
import { evenMode, oddMode } from './microstripPairKirschningJansen.ts'
import type { PairConstants } from './pairConstants.ts'

/**
 * Edge-coupled microstrip with thickness by equivalent widths, put into Kirschning and Jansen's zero-thickness form.
 *
 *     even: we = w + Δw [1 − ½ exp(−0.69 Δw/Δt)],   odd: wo = we + Δt,   Δt = 2 t h / (s εr)
 *
 * Δw is the widening of the single strip (Hammerstad and Jensen). The texts disagree on the factor 2 in Δt; a
 * boundary-element solution is plainly for it. The side walls face each other through air, which a wider strip
 * on the dielectric cannot tell: the odd εeff comes out 14 % high on average and is not usable, and Zo is off by up
 * to 10 % where t > s/2.
 *
 * Assumes: as the zero-thickness form.
 * Source: R. H. Jansen, "High-speed computation of single and coupled microstrip parameters including dispersion,
 * high-order modes, loss and finite strip thickness", IEEE Trans. MTT-26, 1978, pp. 75–82.
 */
export function microstripPairThicknessJansen(pair: MicrostripPair): PairConstants {
  const { even, odd } = jansenWidths(pair)
  const { gap: s, height: h, relativePermittivity: er } = pair
  return { even: evenMode(even / h, s / h, er), odd: oddMode(odd / h, s / h, er) }
}

export const LIMITS: readonly Limit[] = [
  { quantity: 'width/height', min: 0.1, max: 10 },
  { quantity: 'gap/height', min: 0.1, max: 10 },
  { quantity: 'relative permittivity', min: 1, max: 18 },
  { quantity: 'thickness/gap', min: 0, max: 0.5 },
]

/** Widths of the zero-thickness strips that stand for the thick ones in the even and the odd mode. */
export function jansenWidths(pair: MicrostripPair): { readonly even: Metres; readonly odd: Metres } {
  assertMicrostripPair(pair)
  const { width: w, thickness: t, gap: s, height: h, relativePermittivity: er } = pair
  if (t === 0) return { even: w, odd: w }
  const dw = widening(w / h, t / h, er) * h
  const dt = (2 * t * h) / (s * er)
  const even = w + dw * (1 - 0.5 * Math.exp((-0.69 * dw) / dt))
  return { even, odd: even + dt }
}
