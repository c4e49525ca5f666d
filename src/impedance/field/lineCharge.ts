import type { Metres } from '../../units/quantity.ts'

/**
 * Potential at (x, y) of a line charge of 2π ε0 per metre at (fromX, fromY), above a plane at y = 0 and,
 * where there is one, below another at y = `lid`, all images summed.
 *
 *     one plane:   ½ ln [(Δx² + (y + y′)²) / (Δx² + (y − y′)²)]
 *     two planes:  ½ ln [(cosh a − cos (s + s′)) / (cosh a − cos (s − s′))],  a, s = π/lid · (Δx, y)
 *
 * Loses digits where the two places all but coincide. Source: Green's functions of half-plane and strip by
 * images; P. M. Morse, H. Feshbach, "Methods of Theoretical Physics", 1953, section 10.2, from memory.
 */
export function lineChargePotential(
  x: Metres,
  y: Metres,
  fromX: Metres,
  fromY: Metres,
  lid: Metres | null,
): number {
  if (lid === null) {
    const across = (x - fromX) * (x - fromX)
    return 0.5 * Math.log((across + (y + fromY) * (y + fromY)) / (across + (y - fromY) * (y - fromY)))
  }
  const scale = Math.PI / lid
  // Both cosh a scaled by exp(−|a|) against overflow.
  const decayed = Math.exp(-scale * Math.abs(x - fromX))
  const grown = 1 + decayed * decayed
  const image = grown - 2 * decayed * Math.cos(scale * (y + fromY))
  return 0.5 * Math.log(image / (grown - 2 * decayed * Math.cos(scale * (y - fromY))))
}
