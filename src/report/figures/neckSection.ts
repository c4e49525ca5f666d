import { levelDimension } from '../../charts/dimension.ts'
import { frame } from '../../charts/frame.ts'
import { INK, TYPE } from '../../charts/ink.ts'
import { legend } from '../../charts/legend.ts'
import type { LegendEntry } from '../../charts/legend.ts'
import { label, polyline, textWidth } from '../../charts/marks.ts'
import { pattern, patternFill } from '../../charts/patterns.ts'
import { scaleBar } from '../../charts/scaleBar.ts'
import { formatLength } from '../../units/format.ts'
import type { LengthUnit } from '../../units/quantity.ts'
import type { CrossSection } from '../../section/crossSection.ts'
import { layOutSection } from './sectionLayout.ts'
import { drawNote, levelPieces, noteWidth, sideNotes } from './sectionNotes.ts'
import type { LevelPiece } from './sectionNotes.ts'
import { BODY, MIDDLE, PLANE, TOP } from './sectionPlaces.ts'
import type { Upright } from './sectionPlaces.ts'
import { coatShape, planeShapes, sheetShapes, traceShapes } from './sectionShapes.ts'

export interface NeckSectionSpec {
  readonly id: string
  readonly section: CrossSection
  readonly title: string
  readonly unit: LengthUnit
}

/** Too wide for two to stand side by side in print, where their texts would be too small. */
const NARROWEST = 490
const ROW = 19

/** The cross-section that a trace sees, to one scale in both directions and the way it lies in the board. */
export function neckSection(spec: NeckSectionSpec): string {
  const { id, section, unit } = spec
  const layout = layOutSection(section)
  const coat = section.mask === null ? 0 : section.mask.overTrace * layout.scale
  const headroom = section.planeAbove === null ? coat + 10 : PLANE
  const total = PLANE + layout.height + headroom
  const upright: Upright = {
    y: (height) => (section.upsideDown ? TOP + PLANE + height : TOP + headroom + layout.height - height),
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
      // The lowest first, so that its thin lines pass under the texts above.
      ...pieces
        .map((piece, index) =>
          levelDimension({
            from: MIDDLE + piece.from * layout.scale,
            to: MIDDLE + piece.to * layout.scale,
            at: floor + (index + 1) * ROW,
            text: piece.text,
            room: [BODY.left, width - 12],
            edge: upright.y(layout.traceLevels[0]?.low ?? 0),
          }),
        )
        .reverse(),
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
