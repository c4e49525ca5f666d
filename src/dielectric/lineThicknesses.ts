import type { Board } from '../board/board.ts'
import { chooseThickness } from './chooseThickness.ts'
import type { ThicknessChoice } from './thicknessChoice.ts'
import type { LineTable } from '../impedance/lineTable.ts'

/**
 * The thickness question, asked for every line in use whose width is fixed. A main route that was solved for
 * its target meets it already, so it is not asked.
 */
export function lineThicknesses(board: Board, lines: LineTable): ThicknessChoice[] {
  const classes = new Map(board.classes.map((netClass) => [netClass.name, netClass]))
  return lines.entries.flatMap((entry) => {
    const netClass = classes.get(entry.netClass)
    const { layer, width, gap, stretch } = entry
    if (!entry.used || entry.impedance === null || width === null || netClass === undefined) return []
    if (entry.widthBasis === 'solved for the target') return []
    const coplanarGap = stretch === 'main' ? netClass.main.coplanarGap : null
    const request = { layer, width, gap, coplanarGap, broadsideLayer: null }
    const { target, tolerance } = netClass
    return [chooseThickness(board, { request, target, tolerance, stretch, netClass })]
  })
}
