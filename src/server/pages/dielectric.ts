import type { Board } from '../../board/board.ts'
import { classThicknesses, traceThickness } from '../../dielectrics.ts'
import { dielectricPage } from '../../report/pages/dielectricPage.ts'
import type { AskedChoice } from '../../report/pages/dielectricPage.ts'
import { renderPage } from '../../report/renderPage.ts'
import { FormReader } from '../formFields.ts'
import type { PageAnswer, PageRequest, Site } from '../page.ts'
import { onBoard } from './onBoard.ts'

export function dielectric(site: Site, request: PageRequest): Promise<PageAnswer> {
  return onBoard(site, request, async ({ name, board }) => {
    const typed = request.fields
    const reader = new FormReader(typed)
    const asked = Object.keys(typed).length === 0 ? [] : await choices(reader, board)
    const { problems } = reader
    const status = problems.length > 0 ? 422 : 200
    const page = dielectricPage(name, board, { typed, problems }, asked, site.version)
    return { status, html: renderPage('dielectric', page), counted: null }
  })
}

async function choices(reader: FormReader, board: Board): Promise<AskedChoice[]> {
  return reader.isEmpty('class') ? forTrace(reader, board) : forClass(reader, board)
}

async function forTrace(reader: FormReader, board: Board): Promise<AskedChoice[]> {
  const layer = reader.layer('layer', board)
  const width = await reader.quantity('width', 'length')
  const gap = await reader.optionalQuantity('gap', 'length')
  const target = await reader.quantity('target', 'impedance')
  const tolerance = await reader.quantity('tolerance', 'ratio')
  if (layer === null || width === null || target === null || tolerance === null || reader.problems.length > 0)
    return []
  const request = { layer, width, gap, coplanarGap: null, broadsideLayer: null }
  const choice = reader.attempt(() => traceThickness(board, request, target, tolerance))
  return choice === null ? [] : [{ choice, tolerance }]
}

/** The lines of a class that planned routes use, on one layer or all. */
function forClass(reader: FormReader, board: Board): AskedChoice[] {
  const name = reader.text('class')
  const netClass = board.classes.find((each) => each.name === name)
  const layer = reader.isEmpty('layer') ? null : reader.layer('layer', board)
  if (netClass === undefined) {
    reader.refuse('class', `there is no net class "${name}" on this board`)
    return []
  }
  if (reader.problems.length > 0) return []
  const found = reader.attempt(() => classThicknesses(board, name)) ?? []
  const here = layer === null ? found : found.filter((choice) => choice.layer === layer)
  if (here.length === 0 && reader.problems.length === 0) {
    reader.refuse('class', 'no planned route of this class has a trace of fixed width here')
  }
  return here.map((choice) => ({ choice, tolerance: netClass.tolerance }))
}
