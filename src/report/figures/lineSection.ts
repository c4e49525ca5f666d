import { levelDimension } from '../../charts/dimension.ts'
import { frame } from '../../charts/frame.ts'
import { INK, TYPE } from '../../charts/ink.ts'
import { legend } from '../../charts/legend.ts'
import type { LegendEntry } from '../../charts/legend.ts'
import { group, label, polyline, segment } from '../../charts/marks.ts'
import { pattern, patternFill } from '../../charts/patterns.ts'
import { scaleBar } from '../../charts/scaleBar.ts'
import { element } from '../../charts/svg.ts'
import { formatLength } from '../../units/format.ts'
import type { LengthUnit } from '../../units/quantity.ts'
import type { CrossSection } from '../../section/crossSection.ts'
import type { FieldPicture } from '../../impedance/field/fieldPicture.ts'
import { equipotentialMarks, levelLabels, LINE_STYLES } from './equipotentialMarks.ts'
import { drawSectionNotes, noteReach, sectionNotes } from './lineSectionNotes.ts'
import type { SectionNote } from './lineSectionNotes.ts'
import { FIELD, lineSectionPlaces, PLANE_HEIGHT } from './lineSectionPlaces.ts'
import type { LineSectionPlaces } from './lineSectionPlaces.ts'
import { copperShapes, maskShape, planeShapes, slabShapes } from './lineSectionShapes.ts'
import { levelPieces } from './sectionNotes.ts'
import { sectionSlabs } from './sectionSlabs.ts'

export interface LineSectionSpec {
  readonly id: string
  readonly section: CrossSection
  readonly picture: FieldPicture
  readonly title: string
  readonly unit: LengthUnit
}

/** The notes at the right of the drawing, which a narrow screen shows as a list instead. */
const NOTES_CLASS = 'beside'
const ROW = 24
const MIDDLE = (FIELD.left + FIELD.right) / 2

/** The cross-section of a line to one scale in both directions, the way it lies in the board, with its field. */
export function lineSection(spec: LineSectionSpec): string {
  const { id, section, picture, unit } = spec
  const slabs = sectionSlabs(section)
  const lid = slabs.at(-1)?.high ?? 0
  const places = lineSectionPlaces(picture.window, section.upsideDown)
  const notes = sectionNotes(section, slabs, picture.window, places, unit)
  const drawnNotes = drawSectionNotes(notes, places)
  const pieces = levelPieces(section, unit)
  const width = Math.max(...notes.map(noteReach))
  const floor = places.bottom + PLANE_HEIGHT + 6
  const barAt = Math.max(floor + pieces.length * ROW, drawnNotes.bottom) + 22
  const key = legend(legendEntries(id, section), {
    x: FIELD.left,
    y: barAt + 14,
    width: FIELD.right - FIELD.left + 16,
  })
  const laminate = section.above.length === 0 ? (slabs.find((slab) => slab.besideTrace)?.low ?? lid) : lid
  return frame({
    id,
    title: spec.title,
    description: describe(section, notes, pieces),
    width: Math.ceil(width),
    height: Math.ceil(barAt + 14 + key.height + 10),
    definitions: [pattern({ figure: id, kind: 'dots', ink: INK.rule }), windowClip(id, places)],
    body: [
      ...towardsTop(),
      group({ 'clip-path': `url(#${id}-window)` }, [
        ...slabShapes(slabs, places),
        ...(section.mask === null ? [] : [maskShape(id, picture.surface, laminate, places)]),
        ...equipotentialMarks(picture.lines, places),
        ...copperShapes(picture.copper, places),
      ]),
      ...planeShapes(section, picture.window, places),
      ...levelLabels(picture, places),
      group({ class: NOTES_CLASS }, drawnNotes.drawing),
      // The lowest first, so that its thin lines pass under the texts above.
      ...pieces
        .map((piece, index) =>
          levelDimension({
            from: MIDDLE + piece.from * places.scale,
            to: MIDDLE + piece.to * places.scale,
            at: floor + (index + 1) * ROW,
            text: piece.text,
            room: [0, FIELD.right + FIELD.left],
            edge: floor,
            centred: true,
          }),
        )
        .reverse(),
      scaleBar({
        x: FIELD.left,
        y: barAt,
        length: section.trace.width * places.scale,
        text: `${formatLength(section.trace.width, unit)}, to scale in both directions`,
      }),
      key.drawing,
    ],
  })
}

/** The notes beside the drawing as texts, in its order. */
export function lineSectionTexts({ section, picture, unit }: LineSectionSpec): string[] {
  const places = lineSectionPlaces(picture.window, section.upsideDown)
  return sectionNotes(section, sectionSlabs(section), picture.window, places, unit).map(noteText)
}

function noteText({ name, detail }: SectionNote): string {
  return detail === null ? name : `${name} (${detail})`
}

function windowClip(id: string, { top, bottom }: LineSectionPlaces): string {
  const area = { x: FIELD.left, y: top, width: FIELD.right - FIELD.left, height: bottom - top }
  return element('clipPath', { id: `${id}-window` }, element('rect', area))
}

function towardsTop(): string[] {
  return [
    label(
      'towards the top of the board',
      { x: MIDDLE, y: FIELD.top - 24 },
      { 'font-size': TYPE.small, 'text-anchor': 'middle', fill: INK.quiet },
    ),
    polyline(
      [
        { x: MIDDLE - 5, y: FIELD.top - 10 },
        { x: MIDDLE, y: FIELD.top - 16 },
        { x: MIDDLE + 5, y: FIELD.top - 10 },
      ],
      { stroke: INK.quiet },
    ),
  ]
}

function legendEntries(id: string, section: CrossSection): LegendEntry[] {
  const pair = section.arrangement !== 'single'
  const sample = (style: keyof typeof LINE_STYLES): string =>
    segment({ x: 0, y: 6 }, { x: 17, y: 6 }, LINE_STYLES[style])
  return [
    { text: pair ? 'traces' : 'trace', fill: INK.metal },
    {
      text:
        section.coplanarGap === null
          ? 'reference plane (drawn thin)'
          : 'reference plane (drawn thin), coplanar ground',
      fill: INK.metalTint,
    },
    { text: 'dielectric, shaded by sheet', fill: INK.deepShade },
    ...(section.mask === null ? [] : [{ text: 'mask', fill: patternFill({ figure: id, kind: 'dots' }) }]),
    { text: 'equal potential, a line every 10 %', mark: sample('positive') },
    { text: '50 %', mark: sample('half') },
    ...(pair
      ? [
          { text: 'negative potential', mark: sample('negative') },
          { text: 'no potential', mark: sample('zero') },
        ]
      : []),
  ]
}

function describe(
  section: CrossSection,
  notes: readonly SectionNote[],
  pieces: readonly { readonly text: string }[],
): string {
  const layers = notes.map(noteText)
  const signal =
    section.arrangement === 'single'
      ? 'the trace at 100 %, planes at 0 %'
      : 'one trace at 100 %, the other at -100 %, planes at 0 %'
  return (
    `${section.arrangement} on ${section.layerName}, to scale in both directions. ` +
    `From the top of the board down: ${layers.join('; ')}. ${pieces.map((piece) => piece.text).join('; ')}. ` +
    `Lines of equal potential every 10 %: ${signal}; closest together where the field is strongest.`
  )
}
