import { FREE_SPACE_IMPEDANCE } from '../../units/constants.ts'
import type { Metres, Ratio } from '../../units/quantity.ts'
import { broadsidePairThick } from './broadsidePairThick.ts'
import type { LineConstants } from './lineConstants.ts'
import type { PairConstants } from './pairConstants.ts'
import { striplineExactWithThickness } from './striplineExactWithThickness.ts'
import { twoDielectricSideWalls } from './twoDielectricSideWalls.ts'

/** One strip of the pair and what lies between it and its own plane. */
export interface BroadsideSide {
  readonly toPlane: Metres
  readonly relativePermittivity: Ratio
  /** Dielectric that the strip's body stands in: that towards its plane, or that between the strips. */
  readonly bodyIn: 'outer' | 'between'
}

export interface LayeredBroadsidePair {
  readonly width: Metres
  readonly thickness: Metres
  /** Between the facing surfaces of the strips. */
  readonly separation: Metres
  readonly permittivityBetween: Ratio
  readonly sides: readonly [BroadsideSide, BroadsideSide]
}

/**
 * Broadside-coupled pair with a dielectric of its own between the strips and towards each plane.
 *
 *     odd:  each strip is a two-dielectric stripline between its plane and the virtual ground halfway
 *     even: εeff = εouter + (εbetween − εouter) q,   q = 1 − ½ Zeven/Zsym, the share of field that starts on the inner side
 *
 * In air both modes are those of broadsidePairThick.ts; Zsym is the centred strip whose plane is as far as the outer
 * one. Strips at unlike distances count with the mean of their capacitances.
 *
 * Assumes: quasi-TEM, lossless, infinite planes, rectangular strips. Own construction, this project.
 */
export function broadsidePairLayered(pair: LayeredBroadsidePair): PairConstants {
  const [first, second] = pair.sides.map((side) => oneSide(pair, side))
  if (first === undefined || second === undefined) throw new RangeError('a broadside pair has two sides')
  return { even: meanCapacitance(first.even, second.even), odd: meanCapacitance(first.odd, second.odd) }
}

function oneSide(pair: LayeredBroadsidePair, side: BroadsideSide): PairConstants {
  const { width, thickness, separation, permittivityBetween } = pair
  const { toPlane, relativePermittivity: outer, bodyIn } = side
  const air = broadsidePairThick({ width, thickness, separation, toPlane, relativePermittivity: 1 })
  const [footSide, bodySide] = bodyIn === 'outer' ? [separation / 2, toPlane] : [toPlane, separation / 2]
  const odd = twoDielectricSideWalls({
    ...{ width, thickness, below: footSide, above: bodySide },
    permittivityBelow: bodyIn === 'outer' ? permittivityBetween : outer,
    permittivityAbove: bodyIn === 'outer' ? outer : permittivityBetween,
  }).effectivePermittivity
  const facing = striplineExactWithThickness({
    ...{ width, thickness, spacing: 2 * toPlane + thickness },
    relativePermittivity: 1,
  })
  const inner = Math.max(0, 1 - air.even / (2 * facing))
  const even = outer + (permittivityBetween - outer) * inner
  return { even: inDielectric(air.even, even), odd: inDielectric(air.odd, odd) }
}

function inDielectric(air: number, effectivePermittivity: Ratio): LineConstants {
  return { impedance: air / Math.sqrt(effectivePermittivity), effectivePermittivity }
}

/** A line whose capacitances, with dielectric and in air, are the means of two lines'. */
function meanCapacitance(first: LineConstants, second: LineConstants): LineConstants {
  const sum = (power: 1 | -1): number =>
    [first, second].reduce(
      (total, line) => total + Math.sqrt(line.effectivePermittivity) ** power / line.impedance,
      0,
    )
  const [dielectric, air] = [(FREE_SPACE_IMPEDANCE * sum(1)) / 2, (FREE_SPACE_IMPEDANCE * sum(-1)) / 2]
  return {
    impedance: FREE_SPACE_IMPEDANCE / Math.sqrt(dielectric * air),
    effectivePermittivity: dielectric / air,
  }
}
