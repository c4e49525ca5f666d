import type { Board } from '../board/board.ts'
import type { FindingCount } from '../report/pages/homePage.ts'
import { BoardShelf } from './boardShelf.ts'

/** Pages that are computed from a description. */
export type PageName = 'board' | 'report' | 'line' | 'dielectric' | 'compare' | 'pasted'

/** What a page is asked with: plain data, so that another thread may answer. */
export interface PageRequest {
  readonly page: PageName
  /** Name of a board of the folder; empty for a pasted description. */
  readonly board: string
  /** What was typed, by field. */
  readonly fields: Readonly<Record<string, string>>
}

export interface PageAnswer {
  readonly status: number
  readonly html: string
  /** Of the board that was reviewed for it; null where none was. */
  readonly counted: FindingCount | null
}

/** Makes a page. Rejects only for faults of the program. */
export type MakePage = (request: PageRequest) => Promise<PageAnswer>

/** What every page is made from. */
export interface Site {
  readonly shelf: BoardShelf
  readonly version: string
  /** Findings of the boards that were reviewed, for the list of boards. */
  readonly counts: WeakMap<Board, FindingCount>
}

export interface SiteOptions {
  /** Folder whose descriptions (`.yaml`, `.yml`) are served; nothing is ever written to it. */
  readonly boardsFolder: string
  readonly version: string
}

export function openSite({ boardsFolder, version }: SiteOptions): Site {
  return { shelf: new BoardShelf(boardsFolder), version, counts: new WeakMap() }
}

/** Keeps what an answer counted, for the board as it is now. */
export async function noteCount(
  { shelf, counts }: Site,
  { board: name }: PageRequest,
  { counted }: PageAnswer,
): Promise<void> {
  if (counted === null) return
  const board = (await shelf.board(name))?.reading.board
  if (board) counts.set(board, counted)
}
