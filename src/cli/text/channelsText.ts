import type { Board } from '../../board/board.ts'
import type { Package } from '../../board/packages.ts'
import type { ChannelFit } from '../../escape/escape.ts'
import { closedLayers, openChannels } from '../../report/viewModel/openChannels.ts'
import { formatLength } from '../../units/format.ts'
import { layerName } from './layerName.ts'
import { paragraph, table, type Column } from './table.ts'

const COLUMNS: readonly Column[] = [
  { title: 'layers', kind: 'word' },
  { title: 'classes', kind: 'word' },
  { title: 'trace width', kind: 'number' },
  { title: 'gap', kind: 'number' },
  { title: 'traces', kind: 'number' },
  { title: 'left over', kind: 'number' },
  { title: 'widest one', kind: 'number' },
  { title: 'widest two', kind: 'number' },
]

interface Row {
  readonly heading: string
  readonly direction: string
  readonly layer: string
  readonly netClass: string
  readonly figures: readonly string[]
}

/**
 * What passes each channel: equal channels together under one heading, equal classes and layers on one line.
 * Layers on which no net of the package may leave are named and left out.
 */
export function channelsText(board: Board, pack: Package, channels: readonly ChannelFit[]): string {
  const rows = openChannels(pack, channels).map((fit) => rowOf(board, fit))
  const closed = closedLayers(pack, channels).map((layer) => layerName(board, layer))
  const merged = merge(merge(merge(rows, 'direction'), 'layer'), 'netClass')
  const groups = groupsBy(merged, ({ direction, heading }) => `${direction}: ${heading}`)
  return [
    ...[...groups].flatMap(([heading, group]) => [
      paragraph(heading, 4, 2),
      table(
        COLUMNS,
        group.map(({ layer, netClass, figures }) => [layer, netClass, ...figures]),
        6,
      ),
    ]),
    closed.length === 0
      ? ''
      : paragraph(`left out, because the description lets no net leave there: ${closed.join(', ')}`, 4, 2),
  ].join('')
}

function rowOf(board: Board, fit: ChannelFit): Row {
  const length = (metres: number | null): string =>
    metres === null ? 'none' : formatLength(metres, board.displayUnit)
  const { governing, span, obstacle, innerPads } = fit
  const pads = obstacle === 'hole without pad' ? ` (unconnected pads ${innerPads})` : ''
  return {
    heading: `${length(span)} between centres of ${obstaclePlural(obstacle)}${pads}, ${length(governing.clear)} clear by ${governing.rule}`,
    direction: fit.direction,
    layer: layerName(board, fit.layer),
    netClass: fit.netClass,
    figures: [
      length(fit.width),
      length(fit.traceGap),
      String(fit.traces),
      length(fit.remainder),
      length(fit.widestOne),
      length(fit.widestTwo),
    ],
  }
}

/** Rows that differ in one part alone become one row with all its values. */
function merge(rows: readonly Row[], part: 'direction' | 'layer' | 'netClass'): Row[] {
  const groups = groupsBy(rows, (row) => JSON.stringify({ ...row, [part]: '' }))
  return [...groups.values()].flatMap((group) => {
    const [first] = group
    if (first === undefined) return []
    const values = [...new Set(group.map((row) => row[part]))]
    return [{ ...first, [part]: values.join(', ') }]
  })
}

function obstaclePlural(obstacle: ChannelFit['obstacle']): string {
  return obstacle === 'hole without pad' ? 'holes without pad' : `${obstacle}s`
}

function groupsBy<Item>(items: readonly Item[], keyOf: (item: Item) => string): Map<string, Item[]> {
  const groups = new Map<string, Item[]>()
  for (const item of items) {
    const group = groups.get(keyOf(item))
    if (group === undefined) groups.set(keyOf(item), [item])
    else group.push(item)
  }
  return groups
}
