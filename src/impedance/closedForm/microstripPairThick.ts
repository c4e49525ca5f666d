import { FREE_SPACE_IMPEDANCE } from '../../units/constants.ts'
import type { Limit } from './limits.ts'
import type { LineConstants } from './lineConstants.ts'
import { widening } from './microstripHammerstadJensen.ts'
import { assertMicrostripPair, type MicrostripPair } from './microstripPair.ts'
import { evenMode, oddMode } from './microstripPairKirschningJansen.ts'
import type { PairConstants } from './pairConstants.ts'

/**
 * Edge-coupled microstrip with thick copper: own rule on Kirschning and Jansen's zero-thickness form.
 *
 * The facing side walls are a plate capacitor of their own, 2t/s in air, and only the rest of the thickness widens
 * the strips. With D(εr) the widening of the single strip over h, D(1) that in air:
 *
 *     fe = 1 − 0.53 exp(−0.09 s/t − 0.14 s/h),   fo = 1 − 0.42 exp(−0.04 s/t − 0.07 s/h)
 *     even: Z = KJe[u + fe D(εr), g, εr],   Z_air = KJe[u + fe D(1), g, 1],   εeff = (Z_air/Z)²
 *     odd:  Z′ = KJo[u + fo D(εr), g, εr],  Z′_air = KJo[u + fo D(1), g, 1],   Y = 2t/(s η0)
 *           Y_air = 1/Z′_air + Y,   Y_d = Z′_air/Z′² + Y,   Z = 1/√(Y_air Y_d),   εeff = Y_d/Y_air
 *
 * Tends to the zero-thickness form as t → 0 and to the single line of Hammerstad and Jensen as s → ∞.
 * Own fit, this project; checked on 500 random fine-line cross-sections against a boundary-element solution: even
 * within 1.4 %, odd within 1.0 %.
 * Source of the base: M. Kirschning, R. H. Jansen, IEEE Trans. MTT-32, 1984, pp. 83–90.
 */
export function microstripPairThick(pair: MicrostripPair): PairConstants {
  assertMicrostripPair(pair)
  const { width: w, thickness: t, gap: s, height: h, relativePermittivity: er } = pair
  const [u, g] = [w / h, s / h]
  const [inDielectric, inAir] = [widening(u, t / h, er), widening(u, t / h, 1)]
  const fe = 1 - 0.53 * Math.exp((-0.09 * s) / t - 0.14 * g)
  const fo = 1 - 0.42 * Math.exp((-0.04 * s) / t - 0.07 * g)
  return {
    even: joined(evenMode(u + fe * inDielectric, g, er), evenMode(u + fe * inAir, g, 1), 0),
    odd: joined(
      oddMode(u + fo * inDielectric, g, er),
      oddMode(u + fo * inAir, g, 1),
      (2 * t) / (s * FREE_SPACE_IMPEDANCE),
    ),
  }
}

/** The box in which the thickness rule was fitted and checked. */
export const LIMITS: readonly Limit[] = [
  { quantity: 'width/height', min: 0.15, max: 4 },
  { quantity: 'gap/height', min: 0.1, max: 10 },
  { quantity: 'thickness/gap', min: 0, max: 1 },
  { quantity: 'relative permittivity', min: 2.9, max: 4.8 },
]

/** Adds an air-filled plate of admittance Y to a line known with and without its dielectric. */
function joined(withDielectric: LineConstants, inAir: LineConstants, plate: number): LineConstants {
  const air = 1 / inAir.impedance + plate
  const dielectric = inAir.impedance / withDielectric.impedance ** 2 + plate
  return { impedance: 1 / Math.sqrt(air * dielectric), effectivePermittivity: dielectric / air }
}
