import type { RequestHandler } from 'express'
import type { Board } from '../../board/board.ts'
import { evaluateLine } from '../../line.ts'
import { fieldOfLine } from '../../lineField.ts'
import { linePage } from '../../report/pages/linePage.ts'
import { renderPage } from '../../report/renderPage.ts'
import type { LineRequest } from '../../section/crossSection.ts'
import type { Site } from '../createApp.ts'
import { FormReader, typedFields } from '../formFields.ts'
import { withBoard } from '../withBoard.ts'

export function showLine(site: Site): RequestHandler<{ name: string }> {
  return withBoard(site, async ({ name, board }, request, response) => {
    const typed = typedFields(request.query)
    const reader = new FormReader(typed)
    const asked = Object.keys(typed).length === 0 ? null : await readRequest(reader, board)
    const line = asked === null ? null : reader.attempt(() => evaluateLine(board, asked))
    const picture = line === null ? null : fieldOfLine(line)
    const { problems } = reader
    response.status(problems.length > 0 ? 422 : 200)
    response.send(renderPage('line', linePage(name, board, { typed, problems }, line, picture, site.version)))
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
