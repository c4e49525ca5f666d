import type { RequestHandler } from 'express'
import type { Board } from '../../board/board.ts'
import type { Package } from '../../board/packages.ts'
import { compareTechnologies } from '../../compare.ts'
import type { TechnologyComparison } from '../../compare.ts'
import { comparePage } from '../../report/pages/comparePage.ts'
import { renderPage } from '../../report/renderPage.ts'
import type { Site } from '../createApp.ts'
import { FormReader, typedFields } from '../formFields.ts'
import { withBoard } from '../withBoard.ts'

/** Seconds after which the page that announces the planning asks again: it has been shown by then, styles and all. */
const ASK_AGAIN = 1

/** By package; null once the planning was announced. */
type Planned = Map<string, TechnologyComparison[] | null>

/**
 * Planning takes seconds and holds up every other page. So the first answer only says what will be planned (202)
 * and asks again by itself; the second plans. Kept by board and package while the description does not change.
 */
export function showCompare(site: Site): RequestHandler<{ name: string }> {
  const known = new WeakMap<Board, Planned>()
  return withBoard(site, ({ name, board }, request, response) => {
    const typed = typedFields(request.query)
    const reader = new FormReader(typed)
    const pack = Object.keys(typed).length === 0 ? null : askedPackage(reader, board)
    const { problems } = reader
    const planned: Planned = known.get(board) ?? new Map<string, TechnologyComparison[] | null>()
    known.set(board, planned)
    const found = pack === null ? [] : announcedOrPlanned(planned, board, pack.name)
    if (found === null) response.status(202).set('Refresh', String(ASK_AGAIN))
    else response.status(problems.length > 0 ? 422 : 200)
    const frame = { version: site.version, planning: found === null ? pack : null }
    response.send(renderPage('compare', comparePage(name, board, { typed, problems }, found ?? [], frame)))
  })
}

function announcedOrPlanned(planned: Planned, board: Board, pack: string): TechnologyComparison[] | null {
  const announced = planned.has(pack)
  const found = planned.get(pack) ?? (announced ? compareTechnologies(board, pack) : null)
  planned.set(pack, found)
  return found
}

function askedPackage(reader: FormReader, board: Board): Package | null {
  const name = reader.text('package')
  const pack = board.packages.find((each) => each.name === name) ?? null
  if (pack === null) reader.refuse('package', `there is no package "${name}" on this board`)
  return pack
}
