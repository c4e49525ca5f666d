import { area, line } from 'd3-shape'
import { INK, TYPE } from './ink.ts'
import { coordinate, element, escapeText } from './svg.ts'
import type { Attributes } from './svg.ts'

/** A place in the drawing, in user units, y downwards. */
export interface Place {
  readonly x: number
  readonly y: number
}

/** A line through the places; broken where a place is not finite. */
export function polyline(places: readonly Place[], attributes: Attributes = {}): string {
  const path = line<Place>(
    (p) => p.x,
    (p) => p.y,
  )
    .defined((p) => Number.isFinite(p.x) && Number.isFinite(p.y))
    .digits(2)
  return element('path', { d: path(places) ?? '', fill: 'none', stroke: INK.text, ...attributes })
}

export interface BandPlace {
  readonly x: number
  readonly low: number
  readonly high: number
}

/** The area between two lines over the same x. */
export function band(places: readonly BandPlace[], attributes: Attributes = {}): string {
  const path = area<BandPlace>(
    (p) => p.x,
    (p) => p.low,
    (p) => p.high,
  )
    .defined((p) => Number.isFinite(p.low) && Number.isFinite(p.high))
    .digits(2)
  return element('path', { d: path(places) ?? '', fill: INK.accentTint, ...attributes })
}

export interface Box extends Place {
  readonly width: number
  readonly height: number
}

export function box({ x, y, width, height }: Box, attributes: Attributes = {}): string {
  return element('rect', { x, y, width: Math.max(width, 0), height: Math.max(height, 0), ...attributes })
}

export function polygon(corners: readonly Place[], attributes: Attributes = {}): string {
  const points = corners.map((corner) => `${coordinate(corner.x)},${coordinate(corner.y)}`).join(' ')
  return element('polygon', { points, ...attributes })
}

export function circle(centre: Place, radius: number, attributes: Attributes = {}): string {
  return element('circle', { cx: centre.x, cy: centre.y, r: Math.max(radius, 0), ...attributes })
}

export function segment(from: Place, to: Place, attributes: Attributes = {}): string {
  return element('path', {
    d: `M${coordinate(from.x)} ${coordinate(from.y)}L${coordinate(to.x)} ${coordinate(to.y)}`,
    fill: 'none',
    stroke: INK.text,
    ...attributes,
  })
}

/** Text on its baseline. `attributes` may set `text-anchor`, size, weight and fill. */
export function label(text: string, at: Place, attributes: Attributes = {}): string {
  return element('text', { x: at.x, y: at.y, ...attributes }, escapeText(text))
}

/** Width that text takes, estimated: no font is measured here, and labels only need room enough. */
export function textWidth(text: string, size: number = TYPE.normal): number {
  return text.length * size * 0.59
}

/** A shared set of attributes over several marks. */
export function group(attributes: Attributes, marks: readonly string[]): string {
  return marks.length === 0 ? '' : element('g', attributes, ...marks)
}
