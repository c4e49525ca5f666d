import type { Board } from '../board/board.ts'
import type { Metres, Ratio } from '../units/quantity.ts'
import type { NeckCoupling } from './neckCoupling.ts'
import { NeckSections } from './neckSections.ts'
import { neighbourNoise } from './neighbourNoise.ts'

/** What may be done to the neighbours of a neck. */
export type NeighbourChange =
  /** Those that are nearer are moved away to this gap. */
  | { readonly what: 'gap'; readonly gap: Metres }
  /** All run beside the neck for this share of their length. */
  | { readonly what: 'length'; readonly share: Ratio }

/**
 * Sum of the near-end noise on a neck with its neighbours changed; null where a row cannot be solved.
 *
 * Throws RangeError when a neighbour's class is not of the board.
 */
export function nearEndAfter(board: Board, coupling: NeckCoupling, change: NeighbourChange): Ratio | null {
  const sections = new NeckSections(board)
  const neck = { ...coupling, impedance: null, frequency: board.analysis.frequency }
  let sum = 0
  for (const neighbour of coupling.neighbours) {
    const netClass = board.classes.find(({ name }) => name === neighbour.class)
    if (netClass === undefined) throw new RangeError(`the board has no class ${neighbour.class}`)
    const stretches = neighbour.stretches.map((stretch) =>
      change.what === 'gap'
        ? { ...stretch, gap: Math.max(stretch.gap, change.gap) }
        : { ...stretch, length: stretch.length * change.share },
    )
    const noise = neighbourNoise(sections, neck, { ...neighbour, netClass, stretches })
    if (noise === null) return null
    sum += noise.nearEnd
  }
  return sum
}
