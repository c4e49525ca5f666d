import { MinimumHeap } from '../../numerics/minimumHeap.ts'
import { OUTSIDE } from './latticeSteps.ts'
import type { LatticeSteps } from './latticeSteps.ts'

/**
 * Distance to the outside in nanometres from both states of every node, while no path lies: having entered it (by
 * 2 · node), and leaving it (by 2 · node + 1). Infinity where no way leads out.
 * @param through 1 for nodes that a way may lead through; others can only be left.
 */
export function distancesToOutside(steps: LatticeSteps, through: Uint8Array): Float64Array {
  const { size, lengths, neighbours } = steps
  const distances = new Float64Array(2 * size).fill(Infinity)
  const nowhere = OUTSIDE
  const heap = new MinimumHeap()
  const shorten = (node: number, length: number): void => {
    if (length >= (distances[2 * node + 1] ?? Infinity)) return
    distances[2 * node + 1] = length
    heap.push(length, node)
  }
  for (let step = 0; step < 4 * size; step += 1) {
    if (neighbours[step] === nowhere) shorten(step >> 2, lengths[step] ?? Infinity)
  }
  const done = new Uint8Array(size)
  while (heap.size > 0) {
    const node = heap.pop()
    if (done[node] === 1) continue
    done[node] = 1
    if (through[node] !== 1) continue
    const own = distances[2 * node + 1] ?? Infinity
    distances[2 * node] = own
    for (let way = 0; way < 4; way += 1) {
      const neighbour = neighbours[4 * node + way] ?? nowhere
      if (neighbour !== nowhere)
        shorten(neighbour, own + (lengths[4 * neighbour + ((way + 2) & 3)] ?? Infinity))
    }
  }
  return distances
}
