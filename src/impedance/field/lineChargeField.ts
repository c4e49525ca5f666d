import type { Metres } from '../../units/quantity.ts'

/**
 * Field along (normalX, normalY) at (x, y) of the line charge that `lineChargePotential` is the potential of,
 * with the same images:
 *
 *     one plane:   (Δx, y − y′) / r² − (Δx, y + y′) / r′²
 *     two planes:  E_x = π/2 lid · sinh a (1/N − 1/M),  E_y = π/2 lid · [sin (s − s′)/N − sin (s + s′)/M],
 *                  N = cosh a − cos (s − s′),  M = cosh a − cos (s + s′),  a, s = π/lid · (Δx, y)
 */
export function lineChargeField(
  [x, y]: readonly [Metres, Metres],
  [fromX, fromY]: readonly [Metres, Metres],
  lid: Metres | null,
  [normalX, normalY]: readonly [number, number],
): number {
  const across = x - fromX
  if (lid === null) {
    const [direct, image] = [y - fromY, y + fromY]
    const near = across * across + direct * direct
    const far = across * across + image * image
    return normalX * across * (1 / near - 1 / far) + normalY * (direct / near - image / far)
  }
  const scale = Math.PI / lid
  // All of it scaled by 2 exp(−|a|) against overflow.
  const decayed = Math.exp(-scale * Math.abs(across))
  const grown = 1 + decayed * decayed
  const [direct, image] = [scale * (y - fromY), scale * (y + fromY)]
  const near = grown - 2 * decayed * Math.cos(direct)
  const far = grown - 2 * decayed * Math.cos(image)
  const along = Math.sign(across) * (1 - decayed * decayed) * (1 / near - 1 / far)
  const upwards = 2 * decayed * (Math.sin(direct) / near - Math.sin(image) / far)
  return (scale / 2) * (normalX * along + normalY * upwards)
}
