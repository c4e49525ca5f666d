import type { Board } from '../../board/board.ts'

/** Name of a copper layer by its number. */
export function layerName(board: Board, layer: number): string {
  return board.stackup.copper[layer - 1]?.name ?? String(layer)
}
