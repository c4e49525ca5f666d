import { INK, TYPE } from '../../charts/ink.ts'
import { label, polyline, segment, textWidth } from '../../charts/marks.ts'
import { spreadLabels } from '../../charts/spreadLabels.ts'
import { formatLength } from '../../units/format.ts'
import type { LengthUnit, Metres } from '../../units/quantity.ts'
import type { CrossSection, DielectricSheet, ReferencePlane } from '../../section/crossSection.ts'
import type { PictureWindow } from '../../impedance/field/pictureWindow.ts'
import { FIELD, PLANE_HEIGHT } from './lineSectionPlaces.ts'
import type { LineSectionPlaces } from './lineSectionPlaces.ts'
import type { SectionSlab } from './sectionSlabs.ts'
import { permittivityText } from './sectionTexts.ts'

/** What stands beside the drawing: a stretch of height, a name with its thickness, and a second line or none. */
export interface SectionNote {
  readonly from: number
  readonly to: number
  readonly name: string
  readonly detail: string | null
}

const SPACING = 31
const TEXT_AT = FIELD.right + 30

/** Every layer of the picture by name, from the top of the drawing down. */
export function sectionNotes(
  section: CrossSection,
  slabs: readonly SectionSlab[],
  window: PictureWindow,
  places: LineSectionPlaces,
  unit: LengthUnit,
): SectionNote[] {
  const seen = (height: Metres): number => places.y(Math.min(Math.max(height, window.bottom), window.top))
  const sheets = slabs.flatMap(({ sheet, low, high, besideTrace }) =>
    sheet === null || besideTrace || high <= window.bottom || low >= window.top
      ? []
      : [
          {
            from: seen(low),
            to: seen(high),
            name: nameOf(sheet, unit),
            detail: permittivityText(sheet, section),
          },
        ],
  )
  const thickness = formatLength(section.trace.thickness, unit)
  const layers = [
    section.layerName,
    ...(section.broadside === null ? [] : [`layer ${section.broadside.layer}`]),
  ]
  const copper = slabs
    .filter((slab) => slab.besideTrace)
    .map(({ low, high }, index) => ({
      from: seen(low),
      to: seen(high),
      name: `copper of ${layers[index] ?? section.layerName} ${thickness}`,
      detail: null,
    }))
  const notes = [
    planeNote(section.planeBelow, window.bottom, window.endsAtPlane.below ? 0 : window.bottom, places, unit),
    ...sheets,
    ...copper,
    ...maskNotes(section, slabs, places, unit),
    ...(section.planeAbove === null
      ? [{ from: places.y(window.top), to: places.y(airFrom(section, slabs)), name: 'air', detail: null }]
      : [
          planeNote(
            section.planeAbove,
            window.top,
            window.endsAtPlane.above ? 0 : (slabs.at(-1)?.high ?? 0) - window.top,
            places,
            unit,
          ),
        ]),
  ]
  return notes.sort((first, second) => first.from + first.to - second.from - second.to)
}

/** Over the copper, or over the laminate where the mask buries all. */
function airFrom({ mask, above }: CrossSection, slabs: readonly SectionSlab[]): Metres {
  const coat = above.length === 0 ? mask?.overTrace : mask?.overLaminate
  return (slabs.at(-1)?.high ?? 0) + (coat ?? 0)
}

function nameOf({ name, thickness }: DielectricSheet, unit: LengthUnit): string {
  return `${name} ${formatLength(thickness, unit)}`
}

function planeNote(
  { layerName, net }: ReferencePlane,
  edge: Metres,
  beyond: Metres,
  places: LineSectionPlaces,
  unit: LengthUnit,
): SectionNote {
  const at = places.y(edge)
  const outwards = at > places.top ? 1 : -1
  const name = `plane ${layerName}${net === null ? '' : `, ${net}`}`
  if (beyond === 0) return { from: at, to: at + outwards * PLANE_HEIGHT, name, detail: null }
  return { from: at, to: at, name, detail: `${formatLength(beyond, unit)} beyond the drawing` }
}

function maskNotes(
  section: CrossSection,
  slabs: readonly SectionSlab[],
  { y }: LineSectionPlaces,
  unit: LengthUnit,
): SectionNote[] {
  const { mask, above } = section
  if (mask === null) return []
  const permittivity = permittivityText({ permittivity: mask.permittivity, name: null }, section)
  const top = slabs.at(-1)?.high ?? 0
  const onLaminate = formatLength(mask.overLaminate, unit)
  if (above.length > 0) {
    const to = y(top + mask.overLaminate)
    return [{ from: y(top), to, name: `mask ${onLaminate}`, detail: permittivity }]
  }
  return [
    {
      from: y(top),
      to: y(top + mask.overTrace),
      name: `mask ${formatLength(mask.overTrace, unit)} over copper`,
      detail: `${onLaminate} over laminate, ${permittivity}`,
    },
  ]
}

/** Notes at the heights of what they name, or as near as leaves them apart, and the height that they reach. */
export function drawSectionNotes(
  notes: readonly SectionNote[],
  places: LineSectionPlaces,
): { readonly drawing: string[]; readonly bottom: number } {
  const first = places.top - PLANE_HEIGHT + 6
  const last = Math.max(places.bottom + PLANE_HEIGHT - 6, first + (notes.length - 1) * SPACING)
  const heights = spreadLabels(
    notes.map(({ from, to }) => (from + to) / 2),
    SPACING,
    first,
    last,
  )
  return {
    drawing: notes.map((note, index) => drawNote(note, heights[index] ?? 0)),
    bottom: (heights.at(-1) ?? 0) + SPACING / 2,
  }
}

function drawNote({ from, to, name, detail }: SectionNote, at: number): string {
  const middle = (from + to) / 2
  const bracket = FIELD.right + 7
  const quiet = { stroke: INK.rule }
  return [
    polyline(
      [
        { x: FIELD.right + 3, y: from },
        { x: bracket, y: from },
        { x: bracket, y: to },
        { x: FIELD.right + 3, y: to },
      ],
      quiet,
    ),
    segment({ x: bracket, y: middle }, { x: TEXT_AT - 5, y: at }, quiet),
    label(name, { x: TEXT_AT, y: detail === null ? at + 4 : at - 1.5 }),
    detail === null
      ? ''
      : label(detail, { x: TEXT_AT, y: at + 11 }, { 'font-size': TYPE.small, fill: INK.quiet }),
  ].join('')
}

/** How far to the right a note reaches. */
export function noteReach({ name, detail }: SectionNote): number {
  return TEXT_AT + Math.max(textWidth(name), textWidth(detail ?? '', TYPE.small)) + 8
}
