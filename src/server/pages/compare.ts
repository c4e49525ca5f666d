import type { Board } from '../../board/board.ts'
import type { Package } from '../../board/packages.ts'
import { compareTechnologies } from '../../compare.ts'
import type { TechnologyComparison } from '../../compare.ts'
import { comparePage } from '../../report/pages/comparePage.ts'
import { renderPage } from '../../report/renderPage.ts'
import { FormReader } from '../formFields.ts'
import type { PageAnswer, PageRequest, Site } from '../page.ts'
import { onBoard } from './onBoard.ts'

/** By package. Kept while the description does not change. */
type Planned = Map<string, TechnologyComparison[]>

const known = new WeakMap<Board, Planned>()

export function compare(site: Site, request: PageRequest): Promise<PageAnswer> {
  return onBoard(site, request, ({ name, board }) => {
    const typed = request.fields
    const reader = new FormReader(typed)
    const pack = Object.keys(typed).length === 0 ? null : askedPackage(reader, board)
    const { problems } = reader
    const found = pack === null ? [] : planned(board, pack.name)
    const page = comparePage(name, board, { typed, problems }, found, site.version)
    return { status: problems.length > 0 ? 422 : 200, html: renderPage('compare', page), counted: null }
  })
}

function planned(board: Board, pack: string): TechnologyComparison[] {
  const ofBoard: Planned = known.get(board) ?? new Map<string, TechnologyComparison[]>()
  known.set(board, ofBoard)
  const found = ofBoard.get(pack) ?? compareTechnologies(board, pack)
  ofBoard.set(pack, found)
  return found
}

function askedPackage(reader: FormReader, board: Board): Package | null {
  const name = reader.text('package')
  const pack = board.packages.find((each) => each.name === name) ?? null
  if (pack === null) reader.refuse('package', `there is no package "${name}" on this board`)
  return pack
}
