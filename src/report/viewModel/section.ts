import type { Table } from './table.ts'
import { keepTogether } from './words.ts'

/** One part of the report, as the views print it. */
export interface Section {
  readonly id: string
  readonly title: string
  readonly paragraphs: readonly string[]
  /** Drawings before the tables, and after them. */
  readonly figures: readonly Figure[]
  readonly laterFigures: readonly Figure[]
  readonly hasFigures: boolean
  readonly hasLaterFigures: boolean
  readonly tables: readonly Table[]
  /** Printed as a list after the tables. */
  readonly points: readonly string[]
  readonly hasPoints: boolean
}

export interface Figure {
  /** Id of the figure's own title, so that the region round it is named. */
  readonly id: string
  readonly caption: string
  /** Complete SVG markup; made in `charts/`, which escapes every text in it. */
  readonly chartSvg: string
  /** Small enough for two to stand side by side in print. */
  readonly narrow: boolean
  /** Small enough to stand whole on a phone, a little smaller than it is drawn. */
  readonly small: boolean
  /** What stands beside the drawing, in its order: on a narrow screen a list below takes its place. */
  readonly notes: readonly string[]
  readonly hasNotes: boolean
}

const NARROW = 485
const SMALL = 420

export function figure(id: string, caption: string, chartSvg: string, notes: readonly string[] = []): Figure {
  const width = Number(/^<svg[^>]* width="([\d.]+)"/.exec(chartSvg)?.[1] ?? NaN)
  return {
    id,
    caption: keepTogether(caption),
    chartSvg,
    narrow: width <= NARROW,
    small: width <= SMALL,
    notes: notes.map(keepTogether),
    hasNotes: notes.length > 0,
  }
}

export function section(
  spec: Pick<Section, 'id' | 'title'> &
    Partial<Pick<Section, 'paragraphs' | 'figures' | 'laterFigures' | 'tables' | 'points'>>,
): Section {
  const { paragraphs = [], figures = [], laterFigures = [], tables = [] } = spec
  const points = (spec.points ?? []).map(keepTogether)
  return {
    id: spec.id,
    title: spec.title,
    paragraphs: paragraphs.map(keepTogether),
    figures,
    laterFigures,
    hasFigures: figures.length > 0,
    hasLaterFigures: laterFigures.length > 0,
    tables,
    points,
    hasPoints: points.length > 0,
  }
}

/** Letters, digits and hyphens of any name, for use in an id. */
export function slug(name: string): string {
  const plain = name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
  return plain === '' ? 'unnamed' : plain
}
