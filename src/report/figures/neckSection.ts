import { levelDimension, uprightDimension } from '../../charts/dimension.ts'
import { frame } from '../../charts/frame.ts'
import { INK, TYPE } from '../../charts/ink.ts'
import { legend } from '../../charts/legend.ts'
import type { LegendEntry } from '../../charts/legend.ts'
import { box, label, polygon, polyline, textWidth } from '../../charts/marks.ts'
import type { Place } from '../../charts/marks.ts'
import { pattern, patternFill } from '../../charts/patterns.ts'
import { scaleBar } from '../../charts/scaleBar.ts'
import { formatFrequency, formatLength, formatNumber } from '../../units/format.ts'
import type { LengthUnit, Metres } from '../../units/quantity.ts'
import type { CrossSection, DielectricSheet, ReferencePlane } from '../../section/crossSection.ts'
import { layOutSection } from './sectionLayout.ts'
import type { SectionLayout } from './sectionLayout.ts'

export interface NeckSectionSpec {
  readonly id: string
  readonly section: CrossSection
  readonly title: string
  readonly unit: LengthUnit
}

const NARROWEST = 430
/** Height that two lines of text take. */
const TWO_LINES = 30
const BODY = { left: 12, right: 262 }
const MIDDLE = (BODY.left + BODY.right) / 2
const PLANE = 12
const TOP = 44
const ROW = 19

/** Heights of the drawing turned into places on it, the way the board lies: top of the board up. */
interface Upright {
  readonly y: (height: number) => number
  readonly top: number
  readonly bottom: number
}

/** The cross-section that a trace sees, to one scale in both directions and the way it lies in the board. */
export function neckSection(spec: NeckSectionSpec): string {
  const { id, section, unit } = spec
  const layout = layOutSection(section)
  const coat = section.mask === null ? 0 : section.mask.overTrace * layout.scale
  const headroom = section.planeAbove === null ? coat + 10 : PLANE
  const total = PLANE + layout.height + headroom
  const upright: Upright = {
    y: (height) => (section.upsideDown ? TOP + PLANE + height : TOP + headroom + layout.height - height),
    top: TOP,
    bottom: TOP + total,
  }
  const pieces = levelPieces(section, unit)
  const notes = sideNotes(section, layout, unit)
  const pieceWidth = (piece: LevelPiece): number =>
    MIDDLE + piece.to * layout.scale + 36 + textWidth(piece.text, TYPE.small)
  const width = Math.max(NARROWEST, ...notes.map(noteWidth), ...pieces.map(pieceWidth))
  const floor = upright.bottom + 8
  const barAt = floor + pieces.length * ROW + 22
  const key = legend(legendEntries(id, section), { x: BODY.left, y: barAt + 14, width: width - 24 })
  return frame({
    id,
    title: spec.title,
    description: describe(
      section,
      pieces.map((piece) => piece.text),
      unit,
    ),
    width,
    height: barAt + 14 + key.height + 8,
    definitions: definitions(id),
    body: [
      label(
        `towards the top of the board`,
        { x: MIDDLE, y: TOP - 26 },
        { 'font-size': TYPE.small, 'text-anchor': 'middle', fill: INK.quiet },
      ),
      polyline(
        [
          { x: MIDDLE - 5, y: TOP - 14 },
          { x: MIDDLE, y: TOP - 20 },
          { x: MIDDLE + 5, y: TOP - 14 },
        ],
        { stroke: INK.quiet },
      ),
      ...coatShape(id, section, layout, upright),
      ...sheetShapes(id, layout, upright),
      ...planeShapes(section, layout, upright),
      ...traceShapes(section, layout, upright),
      ...notes.map((note) => drawNote(note, upright)),
      ...pieces.map((piece, index) =>
        levelDimension({
          from: MIDDLE + piece.from * layout.scale,
          to: MIDDLE + piece.to * layout.scale,
          at: floor + (index + 1) * ROW,
          text: piece.text,
          room: [BODY.left, width - 12],
          edge: upright.y(layout.traceLevels[0]?.low ?? 0),
        }),
      ),
      scaleBar({
        x: BODY.left,
        y: barAt,
        length: section.trace.width * layout.scale,
        text: `${formatLength(section.trace.width, unit)}, to scale in both directions`,
      }),
      key.drawing,
    ],
  })
}

function definitions(id: string): string[] {
  return [
    pattern({ figure: id, kind: 'dots', ink: INK.rule }),
    pattern({ figure: id, kind: 'diagonal', ink: INK.faint }),
    pattern({ figure: id, kind: 'counter diagonal', ink: INK.faint }),
    pattern({ figure: id, kind: 'horizontal', ink: INK.rule }),
  ]
}

/** Neighbouring dielectrics differ in hatch. */
function sheetFill(id: string, index: number): string {
  return patternFill({ figure: id, kind: index % 2 === 0 ? 'diagonal' : 'counter diagonal' })
}

/** The whole dielectric first, then its sheets: a trace body stands in the sheet on the side away from its foot. */
function sheetShapes(id: string, layout: SectionLayout, { y }: Upright): string[] {
  const names = [...new Set(layout.sheets.map(({ sheet }) => sheet.name))]
  const fillOf = (sheet: DielectricSheet): string => sheetFill(id, names.indexOf(sheet.name))
  const across = { x: BODY.left, width: BODY.right - BODY.left }
  const slab = (low: number, high: number, fill: string): string =>
    box(
      { ...across, y: Math.min(y(low), y(high)), height: Math.abs(y(high) - y(low)) },
      { fill, stroke: INK.rule, 'stroke-width': 0.5 },
    )
  const levels = layout.traceLevels.flatMap(({ low, high, foot }) => {
    const host = layout.sheets.find((each) => (foot === 'below' ? each.low === high : each.high === low))
    return host === undefined ? [] : [slab(low, high, fillOf(host.sheet))]
  })
  const cuts = layout.sheets
    .filter((each) => each.cut)
    .map((each) => cutLine(y(each.low < (layout.traceLevels[0]?.low ?? 0) ? each.low + 18 : each.high - 18)))
  return [...levels, ...layout.sheets.map((each) => slab(each.low, each.high, fillOf(each.sheet))), ...cuts]
}

/** A zigzag where the way to a far plane is cut short. */
function cutLine(at: number): string {
  const steps = Math.round((BODY.right - BODY.left) / 12)
  const places = Array.from({ length: steps + 1 }, (_, index) => ({
    x: BODY.left + index * 12,
    y: at + (index % 2 === 0 ? -3 : 3),
  }))
  return polyline(places, { stroke: INK.paper, 'stroke-width': 5 }) + polyline(places, { stroke: INK.quiet })
}

function planeShapes(section: CrossSection, layout: SectionLayout, { y }: Upright): string[] {
  const plane = (height: number, outwards: 1 | -1, reference: ReferencePlane): string => {
    const face = y(height)
    const down = section.upsideDown ? -outwards : outwards
    const text = `plane ${reference.layerName}${reference.net === null ? '' : `, ${reference.net}`}`
    const top = down > 0 ? face : face - PLANE
    return (
      box(
        { x: BODY.left, y: top, width: BODY.right - BODY.left, height: PLANE },
        { fill: INK.metalTint, stroke: INK.text },
      ) +
      label(
        text,
        { x: BODY.right + 14, y: top + PLANE - 2 },
        { 'font-weight': 'bold', 'font-size': TYPE.small },
      )
    )
  }
  return [
    plane(0, 1, section.planeBelow),
    ...(section.planeAbove === null ? [] : [plane(layout.height, -1, section.planeAbove)]),
  ]
}

/** Corners of one trace: foot and top differ by what the etch takes. */
function traceCorners(
  centre: number,
  section: CrossSection,
  layout: SectionLayout,
  level: SectionLayout['traceLevels'][number],
  y: Upright['y'],
): Place[] {
  const foot = (section.trace.width / 2) * layout.scale
  const top = (section.trace.topWidth / 2) * layout.scale
  const [low, high] = level.foot === 'below' ? [foot, top] : [top, foot]
  return [
    { x: centre - low, y: y(level.low) },
    { x: centre + low, y: y(level.low) },
    { x: centre + high, y: y(level.high) },
    { x: centre - high, y: y(level.high) },
  ]
}

function traceShapes(section: CrossSection, layout: SectionLayout, { y }: Upright): string[] {
  const level = layout.traceLevels[0]
  const grounds =
    level === undefined || section.coplanarGap === null
      ? []
      : coplanarGrounds(section, layout, section.coplanarGap).map(({ from, to }) =>
          box(
            {
              x: from,
              width: to - from,
              y: Math.min(y(level.low), y(level.high)),
              height: Math.abs(y(level.high) - y(level.low)),
            },
            { fill: INK.metalTint, stroke: INK.text },
          ),
        )
  const traces = layout.traceLevels.flatMap((each) =>
    layout.traceCentres.map((centre) =>
      polygon(traceCorners(MIDDLE + centre * layout.scale, section, layout, each, y), {
        fill: INK.metal,
        stroke: INK.text,
      }),
    ),
  )
  return [...grounds, ...traces]
}

function outerEdge(section: CrossSection): Metres {
  return section.gap === null ? section.trace.width / 2 : section.trace.width + section.gap / 2
}

function coplanarGrounds(
  section: CrossSection,
  layout: SectionLayout,
  gap: Metres,
): { from: number; to: number }[] {
  const reach = (outerEdge(section) + gap) * layout.scale
  return [
    { from: BODY.left, to: Math.max(MIDDLE - reach, BODY.left) },
    { from: Math.min(MIDDLE + reach, BODY.right), to: BODY.right },
  ].filter(({ from, to }) => to > from)
}

/** Mask over laminate and trace, its outline stepping over each trace. */
function coatShape(id: string, section: CrossSection, layout: SectionLayout, { y }: Upright): string[] {
  const { mask } = section
  const level = layout.traceLevels[0]
  if (mask === null || level === undefined) return []
  const flat =
    layout.height -
    (level.low === layout.height ? 0 : section.trace.thickness * layout.scale) *
      (section.above.length === 0 ? 1 : 0)
  const base = section.above.length === 0 ? flat : layout.height
  const plain = base + mask.overLaminate * layout.scale
  const raised = level.high + mask.overTrace * layout.scale
  const side = mask.overTrace * layout.scale
  const outline: Place[] = [
    { x: BODY.left, y: y(base) },
    { x: BODY.left, y: y(plain) },
  ]
  if (section.above.length === 0) {
    for (const centre of layout.traceCentres) {
      const middle = MIDDLE + centre * layout.scale
      const half = (section.trace.width / 2) * layout.scale + side
      outline.push(
        { x: middle - half, y: y(plain) },
        { x: middle - half, y: y(Math.max(raised, plain)) },
        { x: middle + half, y: y(Math.max(raised, plain)) },
        { x: middle + half, y: y(plain) },
      )
    }
  }
  outline.push({ x: BODY.right, y: y(plain) }, { x: BODY.right, y: y(base) })
  return [
    polygon(outline, {
      fill: patternFill({ figure: id, kind: 'horizontal' }),
      stroke: INK.quiet,
      'stroke-width': 0.75,
    }),
  ]
}

/** A stretch of height beside the drawing, with up to two lines of text. */
interface SideNote {
  readonly from: number
  readonly to: number
  readonly lines: readonly string[]
}

/** Each stretch between trace and plane with its thickness and permittivity, and the copper itself. */
function sideNotes(section: CrossSection, layout: SectionLayout, unit: LengthUnit): SideNote[] {
  const sheets = layout.sheets.map(({ sheet, low, high, cut }) => ({
    from: low,
    to: high,
    lines: [
      `${sheet.name} ${formatLength(sheet.thickness, unit)}${cut ? ' (cut short)' : ''}`,
      `permittivity ${formatNumber(sheet.permittivity.relative)} at ${formatFrequency(sheet.permittivity.frequency)}`,
    ],
  }))
  const copper = layout.traceLevels.slice(0, 1).map(({ low, high }) => ({
    from: low,
    to: high,
    lines: [`copper ${formatLength(section.trace.thickness, unit)} on ${section.layerName}`],
  }))
  return [...sheets, ...copper]
}

/** The text of a low stretch goes on one line, so that it does not reach into its neighbours. */
function drawNote({ from, to, lines }: SideNote, { y }: Upright): string {
  const [first = '', second] = lines
  const high = Math.abs(to - from)
  const at = BODY.right + 12
  if (second === undefined || high < TWO_LINES) {
    return uprightDimension({ from: y(from), to: y(to), at, text: lines.join(', ') })
  }
  const middle = (y(from) + y(to)) / 2
  return (
    uprightDimension({ from: y(from), to: y(to), at, text: '' }) +
    label(first, { x: at + 8, y: middle - 2.5 }, { 'font-size': TYPE.small }) +
    label(second, { x: at + 8, y: middle + 10.5 }, { 'font-size': TYPE.small, fill: INK.quiet })
  )
}

function noteWidth({ from, to, lines }: SideNote): number {
  const longest =
    Math.abs(to - from) < TWO_LINES
      ? lines.join(', ')
      : lines.reduce((a, b) => (b.length > a.length ? b : a), '')
  return BODY.right + 24 + textWidth(longest, TYPE.small)
}

interface LevelPiece {
  readonly from: Metres
  readonly to: Metres
  readonly text: string
}

function levelPieces(section: CrossSection, unit: LengthUnit): LevelPiece[] {
  const { trace, gap, coplanarGap } = section
  const edge = outerEdge(section)
  const middle = trace.width / 2 - edge
  return [
    { from: 0 - edge, to: trace.width - edge, text: `width at the foot ${formatLength(trace.width, unit)}` },
    {
      from: middle - trace.topWidth / 2,
      to: middle + trace.topWidth / 2,
      text: `width at the top ${formatLength(trace.topWidth, unit)}`,
    },
    ...(gap === null
      ? []
      : [{ from: 0 - gap / 2, to: gap / 2, text: `gap inside the pair ${formatLength(gap, unit)}` }]),
    ...(coplanarGap === null
      ? []
      : [
          {
            from: edge,
            to: edge + coplanarGap,
            text: `gap to coplanar ground ${formatLength(coplanarGap, unit)}`,
          },
        ]),
  ]
}

function legendEntries(id: string, section: CrossSection): LegendEntry[] {
  return [
    { text: section.arrangement === 'single' ? 'trace' : 'traces', fill: INK.metal },
    {
      text:
        section.coplanarGap === null
          ? 'reference plane (drawn thin)'
          : 'reference plane (drawn thin), coplanar ground',
      fill: INK.metalTint,
    },
    { text: 'dielectric, hatched by sheet', fill: patternFill({ figure: id, kind: 'diagonal' }) },
    ...(section.mask === null
      ? []
      : [{ text: 'mask', fill: patternFill({ figure: id, kind: 'horizontal' }) }]),
  ]
}

function describe(section: CrossSection, pieces: readonly string[], unit: LengthUnit): string {
  const planes = [section.planeBelow, section.planeAbove].flatMap((plane) =>
    plane === null ? [] : [plane.layerName],
  )
  const sheets = [...section.below, ...section.above].map(
    (sheet) => `${sheet.name} ${formatLength(sheet.thickness, unit)}`,
  )
  return `${section.arrangement} on ${section.layerName} over ${planes.join(' and ')}, to scale in both directions. ${[...pieces, ...sheets].join('; ')}.`
}
