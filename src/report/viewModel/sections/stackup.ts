import { formatFrequency, formatNumber, formatPercent } from '../../../units/format.ts'
import type { StackupLayer } from '../../../board/stackup.ts'
import { stackupDrawing } from '../../figures/stackupDrawing.ts'
import type { ReportContext } from '../context.ts'
import { figure, section } from '../section.ts'
import type { Section } from '../section.ts'
import { table } from '../table.ts'
import type { CellText } from '../table.ts'
import { ABSENT } from '../words.ts'

const CAPTION =
  'The stackup from the top of the board. Heights are to scale, widths stand for nothing. The wide side of each trace is its foot, which lies on the dielectric that its foil was bonded to.'

/** The stackup as a drawing with heights to scale, and layer by layer with how each thickness came about. */
export function stackupSection(context: ReportContext): Section {
  const { stackup, vias } = context.review.board
  const { length, unit } = context
  const id = 'stackup-drawing'
  const stated =
    stackup.statedThickness === null
      ? 'no total is stated'
      : `${length(stackup.statedThickness)} ± ${formatPercent(stackup.thicknessTolerance, 0)} is stated`
  return section({
    id: 'stackup',
    title: 'Stackup',
    paragraphs: [
      `Copper and dielectric sum to ${length(stackup.computedThickness)}, mask left out; ${stated}. Thicknesses are after pressing, copper is finished copper, widths are those of the trace foot.`,
    ],
    figures: [figure(id, CAPTION, stackupDrawing({ id, stackup, vias, unit }))],
    tables: [
      table({
        id: 'stackup-table',
        caption: 'Stackup, from the top',
        columns: ['Layer', 'Function', '#Thickness', '>How it came about', '#Permittivity', '#Loss tangent'],
        rows: stackup.layers.map((layer) => layerRow(layer, context)),
        notes: [
          'Permittivity and loss tangent at the frequency given; other frequencies follow by a causal model.',
        ],
      }),
    ],
  })
}

function layerRow(layer: StackupLayer, { length }: ReportContext): CellText[] {
  const mark = layer.assumed.length > 0 ? 'partly assumed' : null
  if (layer.kind === 'copper') {
    const net = layer.planeNet === null ? '' : `, ${layer.planeNet}`
    const foot = `foot on the dielectric ${layer.bondedTo}`
    return [
      { text: layer.name, mark },
      { text: `copper, ${layer.role}${net}`, note: layer.role === 'plane' ? null : foot },
      length(layer.thickness),
      layer.thicknessBasis,
      ABSENT,
      ABSENT,
    ]
  }
  const { relative, frequency, lossTangent, tolerance } = layer.permittivity
  const electrical: CellText[] = [
    {
      text: `${formatNumber(relative)} ± ${formatPercent(tolerance, 0)}`,
      note: `at ${formatFrequency(frequency)}`,
    },
    formatNumber(lossTangent, 2),
  ]
  if (layer.kind === 'mask') {
    const over = `over laminate; ${length(layer.thicknessOverTrace)} over traces`
    return [
      { text: layer.name, mark },
      'solder mask',
      length(layer.thicknessOverLaminate),
      over,
      ...electrical,
    ]
  }
  return [
    { text: layer.name, mark },
    { text: layer.type, note: layer.material },
    { text: length(layer.thickness), note: `± ${formatPercent(layer.thicknessTolerance, 0)}` },
    layer.thicknessBasis,
    ...electrical,
  ]
}
