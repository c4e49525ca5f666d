import type { Board } from '../../board/board.ts'
import { evaluateLine, processOfLine } from '../../line.ts'
import { fieldOfLine } from '../../lineField.ts'
import { linePage } from '../../report/pages/linePage.ts'
import { renderPage } from '../../report/renderPage.ts'
import type { LineRequest } from '../../section/crossSection.ts'
import { FormReader } from '../formFields.ts'
import type { PageAnswer, PageRequest, Site } from '../page.ts'
import { onBoard } from './onBoard.ts'

export function line(site: Site, request: PageRequest): Promise<PageAnswer> {
  return onBoard(site, request, async ({ name, board }) => {
    const typed = request.fields
    const reader = new FormReader(typed)
    const asked = Object.keys(typed).length === 0 ? null : await readRequest(reader, board)
    const found = asked === null ? null : reader.attempt(() => evaluateLine(board, asked))
    const line =
      asked === null || found === null
        ? null
        : { line: found, picture: fieldOfLine(found), process: processOfLine(board, asked) }
    const { problems } = reader
    const status = problems.length > 0 ? 422 : 200
    const page = linePage(name, board, { typed, problems }, line, site.version)
    return { status, html: renderPage('line', page), counted: null }
  })
}

async function readRequest(reader: FormReader, board: Board): Promise<LineRequest | null> {
  const layer = reader.layer('layer', board)
  const width = await reader.quantity('width', 'length')
  const gap = await reader.optionalQuantity('gap', 'length')
  const coplanarGap = await reader.optionalQuantity('coplanar_gap', 'length')
  const broadsideLayer = reader.isEmpty('partner_layer') ? null : reader.layer('partner_layer', board)
  if (layer === null || width === null || reader.problems.length > 0) return null
  return { layer, width, gap, coplanarGap, broadsideLayer }
}
