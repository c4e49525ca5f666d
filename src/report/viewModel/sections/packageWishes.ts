import type { KeepOut } from '../../../board/escapeWishes.ts'
import type { Package } from '../../../board/packages.ts'
import type { ReportContext } from '../context.ts'
import { groupBy, table } from '../table.ts'
import type { CellText, Table } from '../table.ts'
import { list, someOf } from '../words.ts'

const NAMES = 8

/** What the description says of how each package is to be broken out; no table where it says nothing. */
export function packageWishes(context: ReportContext): Table[] {
  const rows = context.review.board.packages.flatMap((pack) => wishRows(pack, context))
  if (rows.length === 0) return []
  return [
    table({
      id: 'wishes-table',
      caption: 'How the description wants the packages broken out',
      columns: ['Package', 'About', '>Stated', 'Weight'],
      rows,
      notes: [
        'Sides and areas are in the package’s own frame: row A at the top, column 1 at the left, lengths from the middle of the grid, to the right and upwards.',
      ],
    }),
  ]
}

function wishRows(pack: Package, context: ReportContext): CellText[][] {
  const { layerOrder, priority, priorityLayers, exitSides, keepOuts, apart } = pack.escape
  const { layerName, length } = context
  const row = (about: string, stated: string, weight: 'holds' | 'preference'): CellText[] => [
    pack.name,
    about,
    stated,
    weight,
  ]
  const ranks = priority.map((nets) => someOf(nets, NAMES)).join('; then ')
  const sides = groupBy([...exitSides], ([, side]) => side)
  return [
    ...(layerOrder.length === 0
      ? []
      : [
          row(
            'layers',
            `${layerOrder.map(layerName).join(', ')} and no others, filled in this order`,
            'holds',
          ),
        ]),
    ...(priority.length === 0
      ? []
      : [
          row('planned first', ranks, 'preference'),
          row(
            'layers of those nets',
            priorityLayers === 'deep' ? 'tried from the last back' : 'tried in order',
            'preference',
          ),
        ]),
    ...sides.map((group) =>
      row(
        `${group[0][1]} side`,
        someOf(
          group.map(([net]) => net),
          NAMES,
        ),
        'holds',
      ),
    ),
    ...keepOuts.map((area) => row(`keep-out ${area.name}`, areaText(area, context), 'holds')),
    ...apart.map(({ groups, gap }) =>
      row('apart', `${list(groups)}: ${length(gap)} from trace to trace, edge to edge`, 'holds'),
    ),
  ]
}

function areaText({ layers, low, high }: KeepOut, { layerName, length }: ReportContext): string {
  return `no trace on ${list(layers.map(layerName))} from ${length(low.x)} to ${length(high.x)} across and from ${length(low.y)} to ${length(high.y)} upwards`
}
