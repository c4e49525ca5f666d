import type { Board } from '../../board/board.ts'
import { toolVersion } from '../packageRoot.ts'

/** Name and version of each output format. The number rises when a key changes its meaning or goes. */
export const FORMATS = {
  review: 'narrows-review/1',
  line: 'narrows-line/1',
  escape: 'narrows-escape/1',
  dielectric: 'narrows-dielectric/1',
  compare: 'narrows-compare/1',
} as const

/** What every output says of where it comes from. */
export interface Envelope<Format extends keyof typeof FORMATS> {
  readonly schema: (typeof FORMATS)[Format]
  /** Version of the tool. */
  readonly version: string
  readonly board: BoardReference
}

export interface BoardReference {
  /** As given on the command line. */
  readonly file: string
  readonly title: string
  readonly revision: string | null
  readonly author: string | null
  readonly date: string | null
}

export function envelope<Format extends keyof typeof FORMATS>(
  format: Format,
  file: string,
  board: Board,
): Envelope<Format> {
  const { title, revision, author, date } = board
  return { schema: FORMATS[format], version: toolVersion(), board: { file, title, revision, author, date } }
}
