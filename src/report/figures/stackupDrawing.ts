import { frame } from '../../charts/frame.ts'
import { INK, TYPE } from '../../charts/ink.ts'
import { box, label, polygon, polyline, segment, textWidth } from '../../charts/marks.ts'
import { pattern, patternFill } from '../../charts/patterns.ts'
import { scaleBar } from '../../charts/scaleBar.ts'
import { spreadLabels } from '../../charts/spreadLabels.ts'
import { formatFrequency, formatLength, formatNumber } from '../../units/format.ts'
import type { LengthUnit, Metres } from '../../units/quantity.ts'
import type { CopperLayer, Stackup, StackupLayer } from '../../board/stackup.ts'
import type { ViaType } from '../../board/vias.ts'

export interface StackupDrawingSpec {
  readonly id: string
  readonly stackup: Stackup
  readonly vias: readonly ViaType[]
  readonly unit: LengthUnit
}

const BODY_WIDTH = 264
/** Traces stand left of this distance from the body's edge, holes right of it. */
const TRACES_WIDTH = 104
const BESIDE = 24
const TOP = 14
const LINE = 15
const THINNEST = 2
const USUAL_HEIGHT = 380
const TALLEST = 900

interface PlacedLayer {
  readonly layer: StackupLayer
  readonly top: number
  readonly bottom: number
}

/** Edges of the drawn body across; labels stand on both sides. */
interface Body {
  readonly left: number
  readonly right: number
}

/** The stackup with heights to scale, its traces, planes and holes; widths stand for nothing and the drawing says so. */
export function stackupDrawing(spec: StackupDrawingSpec): string {
  const { id, stackup, vias, unit } = spec
  const { placed, scale, toScale } = placeLayers(stackup.layers)
  const widest = (text: (layer: StackupLayer, unit: LengthUnit) => string): number =>
    Math.max(...stackup.layers.map((layer) => textWidth(text(layer, unit), TYPE.small * 1.08)))
  const left = widest(leftText) + BESIDE
  const body = { left, right: left + BODY_WIDTH }
  const bottom = placed.at(-1)?.bottom ?? TOP
  const columns = viaColumns(vias, body)
  const bar = unit === 'mm' ? 0.2e-3 : 0.254e-3
  const end = bottom + Math.max(20 + vias.length * 16, bar * scale + 14) + 8
  const scaleText = toScale
    ? 'heights to scale, widths not'
    : 'not to scale: layers too thin to see are drawn thicker'
  return frame({
    id,
    title: `Stackup of ${stackup.copper.length} copper layers, ${formatLength(stackup.computedThickness, unit)} thick`,
    description: `From the top, ${scaleText}: ${stackup.layers.map((layer) => `${leftText(layer, unit)}${rightText(layer, unit)}`).join('; ')}.`,
    width: body.right + BESIDE + widest(rightText),
    height: end + 26,
    definitions: [
      pattern({ figure: id, kind: 'diagonal', ink: INK.rule }),
      pattern({ figure: id, kind: 'dots', ink: INK.rule }),
      pattern({ figure: id, kind: 'horizontal', ink: INK.quiet }),
    ],
    body: [
      ...placed.flatMap((each) => layerShape(id, each, body)),
      ...vias.map((via, index) => viaShape(via, columns[index] ?? body.right, placed)),
      ...sideLabels(placed, body, unit),
      ...vias.map((via, index) =>
        viaName(via, { x: columns[index] ?? body.right, top: bottom, at: bottom + 20 + index * 16 }, unit),
      ),
      ...(toScale
        ? [
            scaleBar({
              x: body.right + 20,
              y: bottom + bar * scale + 14,
              length: bar * scale,
              upright: true,
              text: formatLength(bar, unit),
            }),
          ]
        : []),
      label(
        `${scaleText[0]?.toUpperCase() ?? ''}${scaleText.slice(1)}.`,
        { x: body.left, y: end + 12 },
        { 'font-size': TYPE.small },
      ),
    ],
  })
}

function thicknessOf(layer: StackupLayer): Metres {
  return layer.kind === 'mask' ? layer.thicknessOverLaminate : layer.thickness
}

/** One scale for all, large enough for the thinnest layer and for a line of text beside each where that is possible. */
function placeLayers(layers: readonly StackupLayer[]): {
  placed: PlacedLayer[]
  scale: number
  toScale: boolean
} {
  const total = layers.reduce((sum, layer) => sum + thicknessOf(layer), 0)
  const thinnest = Math.min(...layers.map(thicknessOf))
  const wanted = Math.max(THINNEST / thinnest, (layers.length * LINE * 0.6) / total, USUAL_HEIGHT / total)
  const scale = Math.min(wanted, TALLEST / total)
  let top = TOP
  const placed = layers.map((layer) => {
    const one = { layer, top, bottom: top + Math.max(thicknessOf(layer) * scale, 1) }
    top = one.bottom
    return one
  })
  return { placed, scale, toScale: thinnest * scale >= 1 }
}

function layerShape(id: string, { layer, top, bottom }: PlacedLayer, body: Body): string[] {
  const across = { x: body.left, y: top, width: body.right - body.left, height: bottom - top }
  if (layer.kind === 'mask') return [box(across, { fill: patternFill({ figure: id, kind: 'horizontal' }) })]
  if (layer.kind === 'dielectric') {
    const kind = layer.type === 'core' ? 'diagonal' : 'dots'
    return [box(across, { fill: patternFill({ figure: id, kind }), stroke: INK.rule, 'stroke-width': 0.5 })]
  }
  if (layer.role === 'plane') return [box(across, { fill: INK.metal })]
  const pour = { ...across, x: body.left + TRACES_WIDTH, width: across.width - TRACES_WIDTH }
  return [
    box(across, { fill: INK.paper }),
    ...traceShapes(layer, top, bottom, body),
    ...(layer.role === 'mixed' ? [box(pour, { fill: INK.metal })] : []),
  ]
}

/** Traces as trapezoids with the foot on the side the foil was bonded to. */
function traceShapes(layer: CopperLayer, top: number, bottom: number, body: Body): string[] {
  const slant = Math.min(layer.sidewallSlope * (bottom - top), 6)
  const [upper, lower] = layer.bondedTo === 'above' ? [0, slant] : [slant, 0]
  return [16, 50, 70].map((offset) => {
    const x = body.left + offset
    const corners = [
      { x: x + upper, y: top },
      { x: x + 14 - upper, y: top },
      { x: x + 14 - lower, y: bottom },
      { x: x + lower, y: bottom },
    ]
    return polygon(corners, { fill: INK.metal })
  })
}

function viaColumns(vias: readonly ViaType[], body: Body): number[] {
  const room = BODY_WIDTH - TRACES_WIDTH - 16
  const step = room / Math.max(vias.length, 1)
  return vias.map((_, index) => body.left + TRACES_WIDTH + 8 + step * (index + 0.5))
}

/** Barrel and pads; the clearance in planes shows as a white gap beside the barrel. */
function viaShape(via: ViaType, x: number, placed: readonly PlacedLayer[]): string {
  const copper = placed.filter((each) => each.layer.kind === 'copper')
  const first = copper[via.firstLayer - 1]
  const last = copper[via.lastLayer - 1]
  if (first === undefined || last === undefined) return ''
  const half = via.kind === 'microvia' ? 4 : 5
  const over = (each: PlacedLayer, reach: number, fill: string, stroke: string): string =>
    box(
      { x: x - half - reach, y: each.top, width: 2 * (half + reach), height: each.bottom - each.top },
      { fill, stroke, 'stroke-width': 0.75 },
    )
  const clear = copper
    .slice(via.firstLayer - 1, via.lastLayer)
    .filter(({ layer }) => layer.kind === 'copper' && layer.role !== 'signal')
    .map((each) => over(each, 5, INK.paper, 'none'))
  const pads = [first, last].map((each) => over(each, 3, INK.metal, INK.text))
  const barrel = box(
    { x: x - half, y: first.top, width: 2 * half, height: last.bottom - first.top },
    { fill: via.filled ? INK.metalTint : INK.paper, stroke: INK.text },
  )
  return [...clear, ...pads, barrel].join('')
}

function viaName(via: ViaType, place: { x: number; top: number; at: number }, unit: LengthUnit): string {
  const { x, top, at } = place
  const drilled = `${via.kind === 'microvia' ? 'laser drilled' : 'drilled'} ${formatLength(via.drilledDiameter, unit)}`
  const text = `${via.name}: ${drilled}, finished ${formatLength(via.finishedDiameter, unit)}`
  const line = [
    { x, y: top + 3 },
    { x, y: at },
    { x: x - 8, y: at },
  ]
  const fitsLeft = textWidth(text, TYPE.small) < x - 12
  return (
    polyline(line, { stroke: INK.rule, 'stroke-width': 0.75 }) +
    label(
      text,
      { x: fitsLeft ? x - 12 : 4, y: at + 3.5 },
      { 'font-size': TYPE.small, 'text-anchor': fitsLeft ? 'end' : 'start' },
    )
  )
}

function sideLabels(placed: readonly PlacedLayer[], body: Body, unit: LengthUnit): string[] {
  const copper = placed.filter(({ layer }) => layer.kind === 'copper')
  const others = placed.filter(({ layer }) => layer.kind !== 'copper')
  return [...column(copper, body, 'left', unit), ...column(others, body, 'right', unit)]
}

/** Labels beside the stack, kept apart, each joined to its layer by a thin line. */
function column(
  placed: readonly PlacedLayer[],
  body: Body,
  side: 'left' | 'right',
  unit: LengthUnit,
): string[] {
  const middles = placed.map(({ top, bottom }) => (top + bottom) / 2)
  const low = Math.max(placed.at(-1)?.bottom ?? TOP, TOP + placed.length * LINE)
  const heights = spreadLabels(middles, LINE, TOP, low)
  const [edge, away] = side === 'left' ? [body.left, -1] : [body.right, 1]
  return placed.flatMap(({ layer }, index) => {
    const from = middles[index] ?? low
    const to = heights[index] ?? from
    const text = side === 'left' ? leftText(layer, unit) : rightText(layer, unit)
    return [
      segment(
        { x: edge, y: from },
        { x: edge + away * 14, y: to },
        { stroke: INK.rule, 'stroke-width': 0.75 },
      ),
      label(
        text,
        { x: edge + away * 18, y: to + 3.5 },
        {
          'font-size': TYPE.small,
          'text-anchor': side === 'left' ? 'end' : 'start',
          ...(side === 'left' ? { 'font-weight': 'bold' } : {}),
        },
      ),
    ]
  })
}

function leftText(layer: StackupLayer, unit: LengthUnit): string {
  if (layer.kind !== 'copper') return ''
  const net = layer.planeNet === null ? '' : ` ${layer.planeNet}`
  return `${layer.name} ${layer.role}${net}, ${formatLength(layer.thickness, unit)}`
}

function rightText(layer: StackupLayer, unit: LengthUnit): string {
  if (layer.kind === 'copper') return ''
  const { relative, frequency } = layer.permittivity
  const permittivity = `permittivity ${formatNumber(relative)} at ${formatFrequency(frequency)}`
  if (layer.kind === 'mask') return `mask ${formatLength(layer.thicknessOverLaminate, unit)}, ${permittivity}`
  return `${layer.type} ${formatLength(layer.thickness, unit)}, ${permittivity}`
}
