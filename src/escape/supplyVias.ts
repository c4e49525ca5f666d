import type { Board } from '../board/board.ts'
import type { Ball, Package } from '../board/packages.ts'
import type { CopperLayer } from '../board/stackup.ts'
import type { ViaTechnology } from './escape.ts'
import { landLayerOf } from './viaChain.ts'
import type { ViaChain } from './viaChain.ts'

/**
 * The chain of vias under each ball that takes power or ground to its plane; null for every other ball.
 *
 * A through hole stands on every layer. With blind vias the chain goes to the nearest plane of the ball's net
 * that one ends on. A ground ball without a net takes the nearest plane of any ground net of the package;
 * where no plane carries the net, the chain is the deepest there is, so that none is overlooked.
 */
export function supplyVias(
  board: Board,
  pack: Package,
  technology: ViaTechnology,
  chains: ReadonlyMap<number, ViaChain>,
): (ViaChain | null)[] {
  const byDistance = [...chains.values()].toSorted(
    (a, b) => distance(board, pack, a.exitLayer) - distance(board, pack, b.exitLayer),
  )
  const deepest = byDistance.at(-1) ?? null
  const grounds = new Set(
    pack.balls.flatMap(({ use, net }) => (use === 'ground' && net !== null ? [net] : [])),
  )
  const memory = new Map<string, ViaChain | null>()
  return pack.balls.map((ball) => {
    if (ball.use !== 'power' && ball.use !== 'ground') return null
    if (technology === 'through') return deepest
    const key = `${ball.use}|${ball.net ?? ''}`
    const known = memory.get(key)
    if (known !== undefined) return known
    const found = byDistance.find((chain) => carries(layerOf(board, chain), ball, grounds)) ?? deepest
    memory.set(key, found)
    return found
  })
}

function carries(layer: CopperLayer | undefined, ball: Ball, grounds: ReadonlySet<string>): boolean {
  if (layer === undefined || layer.planeNet === null) return false
  if (ball.net !== null) return layer.planeNet === ball.net
  return ball.use === 'ground' && grounds.has(layer.planeNet)
}

function layerOf(board: Board, chain: ViaChain): CopperLayer | undefined {
  return board.stackup.copper[chain.exitLayer - 1]
}

function distance(board: Board, pack: Package, layer: number): number {
  return Math.abs(layer - landLayerOf(board, pack))
}
