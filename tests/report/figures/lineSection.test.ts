import { describe, expect, it } from 'vitest'
import { lineField } from '../../../src/impedance/lineField.ts'
import { lineSection } from '../../../src/report/figures/lineSection.ts'
import type { CrossSection } from '../../../src/section/crossSection.ts'
import type { LengthUnit } from '../../../src/units/quantity.ts'
import { section } from '../fixtures/lines.ts'
import { danglingReferences, duplicateIds, firstUnbalanced, numberOf, tagsOf } from '../markup.ts'
import type { Tag } from '../markup.ts'

const COPPER = '#b5763f'
/** One decimal of a user unit in paths, two elsewhere. */
const ROUNDING = 0.011

const buried = section(3, 80e-6, null)
const sheet = buried.above[0] ?? buried.below[0]
const sections: Readonly<Record<string, CrossSection>> = {
  'a coated trace': section(1, 80e-6, null),
  'a coated pair': section(1, 80e-6, 90e-6),
  'a pair on the bottom beside ground': { ...section(10, 80e-6, 90e-6), coplanarGap: 100e-6 },
  'an offset pair inside': {
    ...section(3, 80e-6, 90e-6),
    above: sheet === undefined ? [] : [sheet, { ...sheet, name: 'prepreg 3', thickness: 60e-6 }],
  },
  'a broadside pair': {
    ...buried,
    arrangement: 'broadside pair',
    broadside: { layer: 4, sheets: buried.below },
  },
  'a plane far away': { ...buried, above: buried.above.map((each) => ({ ...each, thickness: 0.9e-3 })) },
  'a trace as wide as a plate': section(1, 1e-3, null),
}

function draw(line: CrossSection, unit: LengthUnit = 'mm'): string {
  const picture = lineField(line, 1e9)
  if (picture === null) throw new Error('the sample has no field')
  return lineSection({ id: 'line', section: line, picture, title: 'Section', unit })
}

const drawings = Object.entries(sections).map(([name, line]) => [name, line, draw(line)] as const)

function cornersOf(tag: Tag | undefined): (readonly [number, number])[] {
  return (tag?.attributes.get('points') ?? '').split(' ').map((pair) => {
    const [x = NaN, y = NaN] = pair.split(',').map(Number)
    return [x, y]
  })
}

describe.each(drawings)('the section of %s', (_name, line, svg) => {
  const tags = tagsOf(svg)

  it('is well formed, with ids of its own that all lead somewhere', () => {
    expect(firstUnbalanced(svg)).toBeNull()
    expect(duplicateIds(svg)).toEqual([])
    expect(danglingReferences(svg)).toEqual([])
    expect(svg).not.toMatch(/style=|<script|NaN|undefined|Infinity/)
  })

  it('weighs less than 30 kB', () => {
    expect(svg.length).toBeLessThan(30_000)
  })

  it('draws copper, thickness and foot, at the scale of its bar', () => {
    const traces = tags.filter((tag) => tag.name === 'polygon' && tag.attributes.get('fill') === COPPER)
    expect(traces).toHaveLength(line.arrangement === 'single' ? 1 : 2)
    const bar = /<path d="M([\d.]+) [\d.]+L([\d.]+) [\d.]+"[^>]*stroke-width="1.5"/.exec(svg)
    const scale = (Number(bar?.[2]) - Number(bar?.[1])) / line.trace.width
    for (const trace of traces) {
      const corners = cornersOf(trace)
      const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)]
      const extent = (values: readonly number[]): number => Math.max(...values) - Math.min(...values)
      expect(Math.abs(extent(xs) - line.trace.width * scale)).toBeLessThan(2 * ROUNDING)
      expect(Math.abs(extent(ys) - line.trace.thickness * scale)).toBeLessThan(2 * ROUNDING)
    }
  })

  it('keeps its texts inside its area and notes apart', () => {
    const [, , width = 0, height = 0] = (tags[0]?.attributes.get('viewBox') ?? '').split(' ').map(Number)
    const texts = tags.filter((tag) => tag.name === 'text')
    const out = texts.filter((tag) => {
      const [x, y] = [Number(tag.attributes.get('x')), Number(tag.attributes.get('y'))]
      return !(x >= 0 && y >= 0 && x < width && y < height)
    })
    expect(out).toEqual([])
    const notes = texts
      .filter((tag) => numberOf(tag, 'x') === 376)
      .map((tag) => numberOf(tag, 'y'))
      .sort((first, second) => first - second)
    expect(notes.length).toBeGreaterThan(4)
    for (const [index, y] of notes.slice(1).entries()) expect(y - Number(notes[index])).toBeGreaterThan(12)
  })

  it('names every sheet with its permittivity, and the planes', () => {
    for (const { name } of [...line.below, ...line.above]) expect(svg).toContain(`>${name} `)
    const planes = [line.planeBelow, line.planeAbove].flatMap((plane) => (plane === null ? [] : [plane]))
    for (const { layerName } of planes) expect(svg).toContain(`>plane ${layerName}, GND<`)
    expect(svg).toContain('permittivity 3.60 at 1 GHz')
    expect(svg.includes('mask 0.013 mm over copper')).toBe(line.mask !== null)
  })

  it('says in words what it shows', () => {
    const description = /<desc[^>]*>([^<]+)</.exec(svg)?.[1] ?? ''
    expect(description).toContain('Lines of equal potential every 10 %')
    expect(description).toContain('width at the foot')
  })
})

describe('the section with its field', () => {
  it('lies the way the board lies: the plane of a bottom layer is drawn above it', () => {
    const heights = (line: CrossSection): [plane: number, trace: number] => {
      const tags = tagsOf(draw(line))
      const plane = tags.find((tag) => tag.name === 'rect' && tag.attributes.get('fill') === '#efdcc8')
      const trace = tags.find((tag) => tag.name === 'polygon' && tag.attributes.get('fill') === COPPER)
      return [numberOf(plane, 'y'), cornersOf(trace)[0]?.[1] ?? NaN]
    }
    const [underTop, top] = heights(section(1, 80e-6, null))
    const [overBottom, bottom] = heights(section(10, 80e-6, null))
    expect(underTop).toBeGreaterThan(top)
    expect(overBottom).toBeLessThan(bottom)
  })

  it('says how far beyond the drawing a far plane lies, so that the sum is the sheet', () => {
    const svg = draw(sections['a plane far away'] ?? buried)
    expect(svg).toMatch(/>plane L4, GND<.*>0\.\d+ mm beyond the drawing</)
  })

  it('tells negative lines from positive ones by dashes, and writes levels on the lines', () => {
    const pair = draw(sections['a coated pair'] ?? buried)
    expect(pair).toContain('>50 %</text>')
    expect(pair).toContain('>-50 %</text>')
    expect(pair).toContain('stroke-dasharray="4 2"')
    expect(draw(section(1, 80e-6, null))).not.toContain('stroke-dasharray')
  })

  it('speaks the unit of the board', () => {
    const svg = draw(section(1, 80e-6, null), 'mil')
    expect(svg).toContain('width at the foot 3.15 mil')
    expect(svg).not.toMatch(/\d mm/)
  })
})
