import type { Board } from '../../board/board.ts'
import { formatLength } from '../../units/format.ts'

/** Layers that can carry a trace. */
export function layerOptions(board: Board): { value: string; text: string }[] {
  return board.stackup.copper
    .filter((layer) => layer.role !== 'plane')
    .map((layer) => ({ value: layer.name, text: `${layer.name} (${layer.position}, ${layer.role})` }))
}

/** A width to begin with: the first neck that is stated, or the narrowest trace that is made. */
export function widthSuggestion(board: Board): string {
  const stated = board.classes.flatMap((netClass) =>
    netClass.neck.width === null ? [] : [netClass.neck.width],
  )[0]
  return formatLength(stated ?? board.fabrication.traceWidth.inner, board.displayUnit)
}
