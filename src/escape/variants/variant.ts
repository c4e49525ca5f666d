import type { Board } from '../../board/board.ts'
import type { Package } from '../../board/packages.ts'
import type { Assumption } from '../../units/assumption.ts'
import type { ViaTechnology } from '../escape.ts'

/** Ways to build one breakout that are compared with the one described. */
export type VariantId =
  | 'as described'
  | 'through vias'
  | 'blind vias'
  | 'microvias in the lands'
  | 'inner pads removed'
  | 'inner pads kept'
  | 'smallest via pads'
  | 'finest traces'
  | 'one trace per channel'
  | 'two traces per channel'

/** One way to build the breakout of a package: the whole board as it would be described then. */
export interface Variant {
  readonly id: VariantId
  /** What differs from the description, or why nothing does, in words with figures. */
  readonly change: string
  readonly state: 'differs' | 'as described' | 'cannot be built'
  /** The description where the state is not `differs`. */
  readonly board: Board
  readonly technology: ViaTechnology
  /** What had to be invented for it. */
  readonly assumed: readonly Assumption[]
}

/** What every variant starts from. */
export interface Described {
  readonly board: Board
  readonly pack: Package
  readonly technology: ViaTechnology
}

/** A board that differs; the technology is that of the description unless said. */
export function differing(
  { technology }: Described,
  id: VariantId,
  change: string,
  board: Board,
  more: Partial<Pick<Variant, 'technology' | 'assumed'>> = {},
): Variant {
  return { id, change, state: 'differs', board, technology, assumed: [], ...more }
}

/** Nothing to change: the description is built that way already, or has nothing that could be. */
export function unchanged({ board, technology }: Described, id: VariantId, why: string): Variant {
  return { id, change: why, state: 'as described', board, technology, assumed: [] }
}

/** Not to be had on this board from this fabricator, with the figure that decides. */
export function refused({ board, technology }: Described, id: VariantId, why: string): Variant {
  return { id, change: why, state: 'cannot be built', board, technology, assumed: [] }
}

/** The board with another description of one package. */
export function withPackage(board: Board, name: string, change: Partial<Package>): Board {
  return {
    ...board,
    packages: board.packages.map((pack) => (pack.name === name ? { ...pack, ...change } : pack)),
  }
}
