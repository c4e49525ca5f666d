import { INK, TYPE } from '../../charts/ink.ts'
import { box, label, polygon, polyline } from '../../charts/marks.ts'
import type { Place } from '../../charts/marks.ts'
import { patternFill } from '../../charts/patterns.ts'
import type { Metres } from '../../units/quantity.ts'
import type { CrossSection, DielectricSheet, ReferencePlane } from '../../section/crossSection.ts'
import { outerEdge } from './sectionLayout.ts'
import type { SectionLayout } from './sectionLayout.ts'
import { BODY, MIDDLE, PLANE } from './sectionPlaces.ts'
import type { Upright } from './sectionPlaces.ts'

/** Neighbouring dielectrics differ in hatch. */
function sheetFill(id: string, index: number): string {
  return patternFill({ figure: id, kind: index % 2 === 0 ? 'diagonal' : 'counter diagonal' })
}

/** The whole dielectric first, then its sheets: a trace body stands in the sheet on the side away from its foot. */
export function sheetShapes(id: string, layout: SectionLayout, { y }: Upright): string[] {
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

export function planeShapes(section: CrossSection, layout: SectionLayout, { y }: Upright): string[] {
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

export function traceShapes(section: CrossSection, layout: SectionLayout, { y }: Upright): string[] {
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
export function coatShape(
  id: string,
  section: CrossSection,
  layout: SectionLayout,
  { y }: Upright,
): string[] {
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
