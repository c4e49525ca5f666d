/** The escape of every package by itself, without what follows from it. */
import type { Board } from './board/board.ts'
import type { PackageEscape } from './escape/escape.ts'
import { escapePackage } from './escape/escapePackage.ts'
import { mainWidth } from './impedance/solvedMain.ts'
import type { Route } from './routes/route.ts'

export function escapesOf(board: Board): PackageEscape[] {
  return board.packages.map((pack) =>
    escapePackage(board, pack, (netClass, layer) => mainWidth(board, netClass, layer)),
  )
}

/** Routes of the plan that each package's vias allow. */
export function routesOf(escapes: readonly PackageEscape[]): Route[] {
  return escapes.flatMap(
    ({ plans, chosen }) => plans.find(({ technology }) => technology === chosen)?.routes ?? [],
  )
}
