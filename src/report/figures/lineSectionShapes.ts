import { INK } from '../../charts/ink.ts'
import { box, polygon, polyline } from '../../charts/marks.ts'
import { patternFill } from '../../charts/patterns.ts'
import type { CrossSection } from '../../section/crossSection.ts'
import type { FieldPicture } from '../../impedance/field/fieldPicture.ts'
import type { Metres } from '../../units/quantity.ts'
import { FIELD, PLANE_HEIGHT } from './lineSectionPlaces.ts'
import type { LineSectionPlaces } from './lineSectionPlaces.ts'
import type { SectionSlab } from './sectionSlabs.ts'

const ACROSS = { x: FIELD.left, width: FIELD.right - FIELD.left }

/** Neighbouring dielectrics differ in shade; a sheet that a trace stands in has no line at the foot. */
export function slabShapes(slabs: readonly SectionSlab[], { y }: LineSectionPlaces): string[] {
  const shades: string[] = [INK.shade, INK.deepShade]
  return joined(slabs).map(({ low, high }, index) => {
    const [from, to] = [Math.min(y(low), y(high)), Math.max(y(low), y(high))]
    const fill = shades[index % 2] ?? INK.shade
    return box({ ...ACROSS, y: from, height: to - from }, { fill, stroke: INK.rule, 'stroke-width': 0.5 })
  })
}

/** Neighbours of one sheet in one piece, air left out. */
function joined(slabs: readonly SectionSlab[]): { low: Metres; high: Metres }[] {
  const pieces: { low: Metres; high: Metres; sheet: SectionSlab['sheet'] }[] = []
  for (const { sheet, low, high, besideTrace } of slabs) {
    const before = pieces.at(-1)
    if (sheet === null) continue
    if (
      before?.sheet === sheet &&
      (besideTrace || slabs.some((slab) => slab.besideTrace && slab.high === low))
    )
      pieces[pieces.length - 1] = { ...before, high }
    else pieces.push({ sheet, low, high })
  }
  return pieces
}

/** Mask from the laminate up to the air, its face as the solution has it. */
export function maskShape(
  id: string,
  surface: FieldPicture['surface'],
  laminate: Metres,
  { place }: LineSectionPlaces,
): string {
  const [first, last] = [surface?.[0], surface?.at(-1)]
  if (surface === null || first === undefined || last === undefined) return ''
  const outline = [{ x: first.x, y: laminate }, ...surface, { x: last.x, y: laminate }]
  return polygon(outline.map(place), {
    fill: patternFill({ figure: id, kind: 'dots' }),
    stroke: INK.quiet,
    'stroke-width': 0.75,
  })
}

export function copperShapes(copper: FieldPicture['copper'], { place }: LineSectionPlaces): string[] {
  return copper.map(({ role, corners }) =>
    polygon(corners.map(place), {
      fill: role === 'trace' ? INK.metal : INK.metalTint,
      stroke: INK.text,
      'stroke-linejoin': 'round',
    }),
  )
}

/** A plane at the edge of the window, or a zigzag where the way to it is left out. */
export function planeShapes(
  section: CrossSection,
  window: FieldPicture['window'],
  places: LineSectionPlaces,
): string[] {
  const edge = (height: Metres, shown: boolean): string => {
    const at = places.y(height)
    const top = at > places.top ? at : at - PLANE_HEIGHT
    return shown
      ? box({ ...ACROSS, y: top, height: PLANE_HEIGHT }, { fill: INK.metalTint, stroke: INK.text })
      : brokenOff(at)
  }
  return [
    edge(window.bottom, window.endsAtPlane.below),
    ...(section.planeAbove === null ? [] : [edge(window.top, window.endsAtPlane.above)]),
  ]
}

function brokenOff(at: number): string {
  const places = Array.from({ length: 29 }, (_, index) => ({
    x: FIELD.left + index * ((FIELD.right - FIELD.left) / 28),
    y: at + (index % 2 === 0 ? -3 : 3),
  }))
  return polyline(places, { stroke: INK.paper, 'stroke-width': 5 }) + polyline(places, { stroke: INK.quiet })
}
