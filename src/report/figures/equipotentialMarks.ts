import { HALO } from '../../charts/dimension.ts'
import { INK, TYPE } from '../../charts/ink.ts'
import { group, label } from '../../charts/marks.ts'
import type { Place } from '../../charts/marks.ts'
import { coordinate, element } from '../../charts/svg.ts'
import { formatPercent } from '../../units/format.ts'
import type { Equipotential } from '../../impedance/field/equipotentials.ts'
import type { FieldPicture } from '../../impedance/field/fieldPicture.ts'
import { FIELD } from './lineSectionPlaces.ts'
import type { LineSectionPlaces } from './lineSectionPlaces.ts'

const THIN = { stroke: INK.accent, 'stroke-width': 0.9, 'stroke-linejoin': 'round' } as const
/** Every kind of line as it is drawn: apart in grey by weight and dash. */
export const LINE_STYLES = {
  positive: THIN,
  half: { ...THIN, 'stroke-width': 1.8 },
  negative: { ...THIN, 'stroke-dasharray': '4 2' },
  negativeHalf: { ...THIN, 'stroke-width': 1.8, 'stroke-dasharray': '4 2' },
  zero: { stroke: INK.quiet, 'stroke-width': 1, 'stroke-dasharray': '8 3 1.5 3' },
} as const

type Style = keyof typeof LINE_STYLES

function styleOf(level: number): Style {
  if (level === 0) return 'zero'
  const half = Math.abs(Math.abs(level) - 0.5) < 1e-9
  if (level > 0) return half ? 'half' : 'positive'
  return half ? 'negativeHalf' : 'negative'
}

/** The lines in groups of one style each. */
export function equipotentialMarks(lines: readonly Equipotential[], { place }: LineSectionPlaces): string[] {
  return (Object.keys(LINE_STYLES) as Style[]).map((style) =>
    group(
      { ...LINE_STYLES[style], fill: 'none' },
      lines
        .filter(({ level }) => styleOf(level) === style)
        .map(({ points }) => strokeOnly(points.map(place))),
    ),
  )
}

/** Stroke and fill come from the group. */
function strokeOnly(places: readonly Place[]): string {
  const [start, ...rest] = places.map(({ x, y }) => `${tenth(x)} ${tenth(y)}`)
  return element('path', { d: `M${start ?? ''}L${rest.join(' ')}` })
}

/** A tenth of a user unit: finer than the line is wide. */
function tenth(value: number): string {
  return coordinate(Math.round(value * 10) / 10)
}

/** Which lines say their level, those that matter most first. */
const NAMED = [0.5, -0.5, 0.1, -0.1, 0.3, -0.3, 0.7, -0.7]
/** From a label's middle to anything else, heights counted twice since text is wider than high. */
const CLEARANCE = 17

/** Levels written on the lines, each where there is most room; where there is none, not at all. */
export function levelLabels(
  { lines, copper }: Pick<FieldPicture, 'lines' | 'copper'>,
  { place, top, bottom }: LineSectionPlaces,
): string[] {
  const stretched = (at: Place): Place => ({ x: at.x, y: 2 * at.y })
  const placed: Place[] = []
  const drawn = lines.map(({ level, points }) => ({ level, places: points.map(place) }))
  const faces = copper.map(({ corners }) => corners.map((corner) => stretched(place(corner))))
  const roomAt = (at: Place, others: readonly (readonly Place[])[]): number =>
    Math.min(
      at.x - FIELD.left,
      FIELD.right - at.x,
      2 * (at.y - top),
      2 * (bottom - at.y),
      ...others.map((other) => distanceToLine(stretched(at), other)),
      // Two labels next to each other need the room of both.
      ...placed.map((other) => distanceToLine(stretched(at), [stretched(other)]) / 2),
    )
  return NAMED.flatMap((level) => {
    const isNamed = (line: { level: number }): boolean => Math.abs(line.level - level) < 1e-9
    const others = drawn.flatMap((line) => (isNamed(line) ? [] : [line.places.map(stretched)]))
    const best = drawn
      .filter(isNamed)
      .flatMap((line) => line.places)
      .map((at) => ({ at, room: roomAt(at, [...others, ...faces]) }))
      .reduce((so, next) => (next.room > so.room ? next : so), { at: { x: 0, y: 0 }, room: 0 })
    if (best.room < CLEARANCE) return []
    placed.push(best.at)
    return [
      label(
        formatPercent(level, 0),
        { x: best.at.x, y: best.at.y + 3.5 },
        { 'font-size': TYPE.small, 'text-anchor': 'middle', fill: INK.accent, ...HALO },
      ),
    ]
  })
}

function distanceToLine({ x, y }: Place, line: readonly Place[]): number {
  let nearest = Infinity
  line.forEach((from, index) => {
    const to = line[index + 1] ?? from
    const [dx, dy] = [to.x - from.x, to.y - from.y]
    const squared = dx * dx + dy * dy
    const along = squared === 0 ? 0 : ((x - from.x) * dx + (y - from.y) * dy) / squared
    const share = Math.min(Math.max(along, 0), 1)
    const [awayX, awayY] = [x - from.x - share * dx, y - from.y - share * dy]
    nearest = Math.min(nearest, awayX * awayX + awayY * awayY)
  })
  return Math.sqrt(nearest)
}
