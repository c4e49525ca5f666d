import type { Issue } from '../../board/issue.ts'
import { count } from '../viewModel/words.ts'
import { table, verdict } from '../viewModel/table.ts'
import type { Table } from '../viewModel/table.ts'
import { boardPath } from './pageFrame.ts'
import type { BoardPlace, PageFrame } from './pageFrame.ts'
import { issueList } from './problemsPage.ts'
import type { IssueLine } from './problemsPage.ts'

/** A board of the folder as the list shows it. */
export interface ListedBoard {
  readonly name: string
  readonly title: string | null
  readonly revision: string | null
  readonly packages: number
  readonly nets: number
  readonly problems: number
  /** Null until the board was reviewed. */
  readonly reviewed: FindingCount | null
}

/** How many findings of a review ask for something. */
export interface FindingCount {
  readonly errors: number
  readonly warnings: number
}

export interface HomePage {
  readonly page: PageFrame
  readonly uses: readonly Use[]
  readonly boards: Table
  readonly hasBoards: boolean
  readonly paste: Paste
}

interface Use {
  readonly id: string
  readonly heading: string
  readonly text: string
  readonly links: readonly { readonly href: string; readonly text: string }[]
  readonly hasLinks: boolean
}

/** The form that takes a description by hand. */
export interface Paste {
  readonly text: string
  readonly problems: { readonly heading: string; readonly lines: readonly IssueLine[] } | null
}

/** As many boards as are named under each use; the list below has them all. */
const MOST_NAMED = 5

const USES: readonly (readonly [string, string, string, BoardPlace])[] = [
  [
    'check',
    'Check high-speed nets through the breakout',
    'Which layer each net leaves on, how long its neck is, what impedance the neck has there, and whether the step to the main route matters at the edge of the net.',
    'review',
  ],
  [
    'pick',
    'Pick a dielectric thickness for fine traces',
    'Which pressed thickness between a narrow trace and its plane brings it to target, the range that keeps it there, and the whole curve.',
    'dielectric',
  ],
  [
    'print',
    'Print a review report',
    'The answer first, then drawings to scale, every table, every assumption with its source, open questions to the fabricator, and lines to sign.',
    'report',
  ],
]

export function homePage(
  boards: readonly ListedBoard[],
  version: string,
  paste: Paste = { text: '', problems: null },
): HomePage {
  const readable = boards.filter((board) => board.problems === 0)
  return {
    page: { pageTitle: 'Narrows: impedance through the breakout of a ball grid array', version, board: null },
    uses: USES.map(([id, heading, text, place]) => {
      const links = readable
        .slice(0, MOST_NAMED)
        .map((board) => ({ href: boardPath(board.name, place), text: board.title ?? board.name }))
      return { id, heading, text, links, hasLinks: links.length > 0 }
    }),
    boards: boardTable(boards),
    hasBoards: boards.length > 0,
    paste,
  }
}

/** The form again, with what was pasted and everything that is wrong with it. */
export function pasteProblems(text: string, issues: readonly Issue[]): Paste {
  const lines = issueList(issues)
  return { text, problems: { heading: `The description has ${count(lines.length, 'problem')}`, lines } }
}

function boardTable(boards: readonly ListedBoard[]): Table {
  return table({
    id: 'boards-table',
    caption: 'Boards in this folder',
    columns: ['Board', 'Title', '#Packages', '#Nets', 'Description', 'Review'],
    rows: boards.map((board) => [
      { text: board.name, href: boardPath(board.name) },
      board.title === null
        ? '–'
        : { text: board.title, note: board.revision === null ? null : `revision ${board.revision}` },
      board.problems > 0 ? '–' : String(board.packages),
      board.problems > 0 ? '–' : String(board.nets),
      board.problems > 0
        ? { text: '', verdict: verdict('fail', count(board.problems, 'problem')) }
        : { text: '', verdict: verdict('pass', 'complete') },
      reviewCell(board),
    ]),
    whenEmpty:
      'The folder holds no description: a file that ends in .yaml or .yml. Paste one below, or put one there.',
  })
}

function reviewCell({
  reviewed,
  problems,
}: ListedBoard): Parameters<typeof table>[0]['rows'][number][number] {
  if (problems > 0) return 'not possible yet'
  if (reviewed === null) return 'not yet reviewed'
  const { errors, warnings } = reviewed
  if (errors > 0)
    return { text: '', verdict: verdict('fail', `${count(errors, 'error')}, ${count(warnings, 'warning')}`) }
  return {
    text: '',
    verdict:
      warnings > 0
        ? verdict('watch', count(warnings, 'warning'))
        : verdict('pass', 'nothing exceeds its limit'),
  }
}
