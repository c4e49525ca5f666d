import { OUTSIDE } from './latticeSteps.ts'
import type { LatticeSteps } from './latticeSteps.ts'

/**
 * Distance to the outside in nanometres from both states of every node, while no path lies: having entered it (by
 * 2 · node), and leaving it (by 2 · node + 1). Infinity where no way leads out.
 *
 * Every node is asked again and again whether it is nearer by one of its neighbours, in turn from the first to the last
 * and back, until none is: as often as the longest way out turns between right or up and left or down, which on lanes
 * is a few times (J. Y. Yen, An algorithm for finding shortest routes from all source nodes to a given destination in
 * general networks, Quarterly of Applied Mathematics 27, 1970; from memory).
 * @param through 1 for nodes that a way may lead through; others can only be left.
 */
export function distancesToOutside(steps: LatticeSteps, through: Uint8Array): Float64Array {
  const { size } = steps
  const leaving = new Float64Array(size).fill(Infinity)
  for (let nearer = true, forth = true; nearer; forth = !forth) {
    nearer = false
    for (let count = 0; count < size; count += 1) {
      if (getsNearer(steps, leaving, forth ? count : size - 1 - count)) nearer = true
    }
  }
  const distances = new Float64Array(2 * size)
  for (let node = 0; node < size; node += 1) {
    const distance = leaving[node] ?? Infinity
    distances[2 * node] = through[node] === 1 ? distance : Infinity
    distances[2 * node + 1] = distance
  }
  return distances
}

/** Shortens the distance of a node by what is known of its neighbours; true where that was possible. */
function getsNearer(
  { ways, lengths, neighbours }: LatticeSteps,
  leaving: Float64Array,
  node: number,
): boolean {
  const open = ways[node] ?? 0
  const known = leaving[node] ?? Infinity
  let least = known
  for (let way = 0; way < 4; way += 1) {
    if ((open & (1 << way)) === 0) continue
    const next = neighbours[4 * node + way] ?? OUTSIDE
    const length = lengths[4 * node + way] ?? Infinity
    const distance = next === OUTSIDE ? length : length + (leaving[next] ?? Infinity)
    if (distance < least) least = distance
  }
  if (least === known) return false
  leaving[node] = least
  return true
}
