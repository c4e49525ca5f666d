/** The escape of every package by itself, without what follows from it. */
import type { Board } from './board/board.ts'
import type { PackageEscape } from './escape/escape.ts'
import { escapePackage } from './escape/escapePackage.ts'
import { mainWidth } from './impedance/solvedMain.ts'
import { BoundedMemory } from './numerics/boundedMemory.ts'
import type { Route } from './routes/route.ts'

/** The last few boards that were planned are remembered: equal descriptions, by all that they say, have equal escapes. */
export function escapesOf(board: Board): readonly PackageEscape[] {
  return planned.recall(keyOf(board), () =>
    board.packages.map((pack) =>
      escapePackage(board, pack, (netClass, layer) => mainWidth(board, netClass, layer)),
    ),
  )
}

/** All that a board says. A third of a kilobyte and a hundredth of a millisecond for each net. */
function keyOf(board: Board): string {
  return JSON.stringify(board, (_, value: unknown) =>
    value instanceof Map || value instanceof Set ? [...(value as Iterable<unknown>)] : value,
  )
}

/** A board, and changes of it back and forth. */
const planned = new BoundedMemory<readonly PackageEscape[]>(4)

/** Routes of the plan that each package's vias allow. */
export function routesOf(escapes: readonly PackageEscape[]): Route[] {
  return escapes.flatMap(
    ({ plans, chosen }) => plans.find(({ technology }) => technology === chosen)?.routes ?? [],
  )
}
