import type { Board } from '../board/board.ts'
import type { LineEntry, LineTable } from '../impedance/lineTable.ts'
import type { LineRequest } from '../section/crossSection.ts'
import { lineSpread } from './lineSpread.ts'
import type { ProcessSpread } from './processSpread.ts'

/** The spread of one line of the table. */
export interface LineSpread {
  readonly entry: LineEntry
  /** Null where the line does not come out at an end of its ranges. */
  readonly spread: ProcessSpread | null
}

/** For every line that a planned route uses, each asked once. What stands beside a neck loads it alike at either end. */
export function lineSpreads(board: Board, { entries }: LineTable): LineSpread[] {
  const classes = new Map(board.classes.map((netClass) => [netClass.name, netClass]))
  const known = new Map<string, ProcessSpread | null>()
  const spreadOf = (request: LineRequest): ProcessSpread | null => {
    const key = JSON.stringify(request)
    const spread = known.has(key) ? (known.get(key) ?? null) : lineSpread(board, request)
    known.set(key, spread)
    return spread
  }
  return entries.flatMap((entry): LineSpread[] => {
    const { layer, width, gap, stretch, netClass } = entry
    if (!entry.used || entry.impedance === null || width === null) return []
    const coplanarGap = stretch === 'main' ? (classes.get(netClass)?.main.coplanarGap ?? null) : null
    return [{ entry, spread: spreadOf({ layer, width, gap, coplanarGap, broadsideLayer: null }) }]
  })
}
