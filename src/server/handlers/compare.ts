import type { RequestHandler } from 'express'
import type { Board } from '../../board/board.ts'
import { compareTechnologies } from '../../compare.ts'
import type { TechnologyComparison } from '../../compare.ts'
import { comparePage } from '../../report/pages/comparePage.ts'
import { renderPage } from '../../report/renderPage.ts'
import type { Site } from '../createApp.ts'
import { FormReader, typedFields } from '../formFields.ts'
import { withBoard } from '../withBoard.ts'

export function showCompare(site: Site): RequestHandler<{ name: string }> {
  const known = new WeakMap<Board, Map<string, TechnologyComparison[]>>()
  return withBoard(site, ({ name, board }, request, response) => {
    const typed = typedFields(request.query)
    const reader = new FormReader(typed)
    const asked = Object.keys(typed).length === 0 ? [] : comparisons(reader, board, known)
    const { problems } = reader
    response.status(problems.length > 0 ? 422 : 200)
    response.send(renderPage('compare', comparePage(name, board, { typed, problems }, asked, site.version)))
  })
}

/** Planned once a board and package, as long as its description does not change. */
function comparisons(
  reader: FormReader,
  board: Board,
  known: WeakMap<Board, Map<string, TechnologyComparison[]>>,
): TechnologyComparison[] {
  const name = reader.text('package')
  if (!board.packages.some((pack) => pack.name === name)) {
    reader.refuse('package', `there is no package "${name}" on this board`)
    return []
  }
  const ofBoard = known.get(board) ?? new Map<string, TechnologyComparison[]>()
  known.set(board, ofBoard)
  const found = ofBoard.get(name) ?? compareTechnologies(board, name)
  ofBoard.set(name, found)
  return found
}
