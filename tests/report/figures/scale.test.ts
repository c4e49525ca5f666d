import { describe, expect, it } from 'vitest'
import { channelPlan } from '../../../src/report/figures/channelPlan.ts'
import { neckSection } from '../../../src/report/figures/neckSection.ts'
import { layOutSection } from '../../../src/report/figures/sectionLayout.ts'
import { stackupDrawing } from '../../../src/report/figures/stackupDrawing.ts'
import { thicknessCurve } from '../../../src/report/figures/thicknessCurve.ts'
import { board } from '../fixtures/board.ts'
import { escapes } from '../fixtures/escapes.ts'
import { section } from '../fixtures/lines.ts'
import { thicknesses } from '../fixtures/signals.ts'
import { numberOf, tagsOf } from '../markup.ts'
import type { Tag } from '../markup.ts'

/** Two decimals of a user unit, on both ends of a length. */
const ROUNDING = 0.011

function some<T>(value: T | undefined): T {
  if (value === undefined) throw new Error('the sample lacks what this test looks at')
  return value
}

function withFill(tags: readonly Tag[], name: string, fill: string): Tag[] {
  return tags.filter((tag) => tag.name === name && tag.attributes.get('fill') === fill)
}

describe('the channel drawing', () => {
  const fit = some(escapes[0]?.channels[0])
  const tags = tagsOf(channelPlan({ id: 'a', fit, layerName: 'L1', unit: 'mm' }))
  const lands = withFill(tags, 'circle', '#efdcc8').slice(0, 2)
  const perMetre = (numberOf(lands[1], 'cx') - numberOf(lands[0], 'cx')) / fit.span

  it('has lands, mask openings and clearances in proportion to the distance of the lands', () => {
    const mask = some(tags.find((tag) => tag.name === 'circle' && tag.attributes.has('stroke-dasharray')))
    expect(Math.abs(2 * numberOf(lands[0], 'r') - 0.38e-3 * perMetre)).toBeLessThan(2 * ROUNDING)
    expect(Math.abs(2 * numberOf(mask, 'r') - 0.46e-3 * perMetre)).toBeLessThan(2 * ROUNDING)
  })

  it('has the trace, the remainder and the clearances side by side without a gap', () => {
    const right = numberOf(lands[1], 'cx') - numberOf(lands[1], 'r')
    const left = numberOf(lands[0], 'cx') + numberOf(lands[0], 'r')
    const pieces = [fit.governing.clearance, fit.width, fit.remainder, fit.governing.clearance]
    const sum = pieces.reduce((total, piece) => total + piece, 0) * perMetre
    expect(Math.abs(right - left - sum)).toBeLessThan(0.05)
    const remainder = some(withFill(tags, 'rect', 'url(#a-fill-diagonal)')[0])
    expect(Math.abs(numberOf(remainder, 'width') - fit.remainder * perMetre)).toBeLessThan(ROUNDING)
  })

  it('dimensions every piece in words', () => {
    const svg = channelPlan({ id: 'a', fit, layerName: 'L1', unit: 'mm' })
    for (const text of [
      'trace to pad 0.080 mm',
      'trace width 0.095 mm',
      'remainder 0.165 mm',
      'centre to centre 0.800 mm',
      'edge to edge 0.420 mm',
    ]) {
      expect(svg).toContain(text)
    }
  })
})

describe('the section drawing', () => {
  const line = section(3, 80e-6, 90e-6)
  const layout = layOutSection(line)

  it('has one scale for widths and heights', () => {
    const trace = some(layout.traceLevels[0])
    expect((trace.high - trace.low) / layout.scale).toBeCloseTo(line.trace.thickness, 12)
    for (const { sheet, low, high } of layout.sheets)
      expect((high - low) / layout.scale).toBeCloseTo(sheet.thickness, 12)
    const [left = 0, right = 0] = layout.traceCentres
    expect(right - left).toBeCloseTo(line.trace.width + (line.gap ?? 0), 12)
  })

  it('draws the foot of the trace at its width', () => {
    const points =
      some(
        tagsOf(neckSection({ id: 'a', section: line, title: '', unit: 'mm' })).find(
          (tag) => tag.name === 'polygon',
        ),
      ).attributes.get('points') ?? ''
    const corners = points.split(' ').map((pair) => pair.split(',').map(Number))
    const foot = (corners[1]?.[0] ?? 0) - (corners[0]?.[0] ?? 0)
    const top = (corners[2]?.[0] ?? 0) - (corners[3]?.[0] ?? 0)
    expect(Math.abs(foot - line.trace.width * layout.scale)).toBeLessThan(2 * ROUNDING)
    expect(Math.abs(top - line.trace.topWidth * layout.scale)).toBeLessThan(2 * ROUNDING)
  })

  it('says where the way to a far plane is cut short, and keeps the near side whole', () => {
    const far = { ...line, above: line.above.map((sheet) => ({ ...sheet, thickness: 0.9e-3 })) }
    expect(layOutSection(far)).toMatchObject({ cutAbove: true, cutBelow: false })
    expect(neckSection({ id: 'a', section: far, title: '', unit: 'mm' })).toContain('0.900 mm (cut short)')
  })

  it('lies the way the board lies: the plane of a bottom layer is drawn above it', () => {
    const heightOf = (number: number): [number, number] => {
      const tags = tagsOf(
        neckSection({ id: 'a', section: section(number, 80e-6, null), title: '', unit: 'mm' }),
      )
      const plane = some(withFill(tags, 'rect', '#efdcc8')[0])
      const trace = some(
        tags.find((tag) => tag.name === 'polygon' && tag.attributes.get('fill') === '#b5763f'),
      )
      return [numberOf(plane, 'y'), Number(trace.attributes.get('points')?.split(',')[1]?.split(' ')[0])]
    }
    const [planeOfTop, top] = heightOf(1)
    const [planeOfBottom, bottom] = heightOf(10)
    expect(planeOfTop).toBeGreaterThan(top)
    expect(planeOfBottom).toBeLessThan(bottom)
  })
})

describe('the stackup drawing', () => {
  const { stackup, vias } = board

  it('has every height in proportion to its thickness', () => {
    const heights = tagsOf(stackupDrawing({ id: 'a', stackup, vias: [], unit: 'mm' }))
      .filter(
        (tag) =>
          tag.name === 'rect' &&
          ['url(#a-fill-diagonal)', 'url(#a-fill-dots)'].includes(tag.attributes.get('fill') ?? ''),
      )
      .map((tag) => numberOf(tag, 'height'))
    const sheets = stackup.layers.flatMap((layer) => (layer.kind === 'dielectric' ? [layer.thickness] : []))
    expect(heights).toHaveLength(sheets.length)
    const scale = (heights[0] ?? 0) / (sheets[0] ?? 1)
    heights.forEach((height, index) => {
      expect(Math.abs(height / scale - (sheets[index] ?? 0))).toBeLessThan(0.2e-6)
    })
  })

  it('says that widths are not to scale, and nothing of scale where a layer would vanish', () => {
    expect(stackupDrawing({ id: 'a', stackup, vias, unit: 'mm' })).toContain('Heights to scale, widths not.')
    const [first, ...rest] = stackup.layers
    const foil = { ...some(first), thicknessOverLaminate: 1e-7 } as typeof first
    const thin = { ...stackup, layers: [some(foil), ...rest] }
    expect(stackupDrawing({ id: 'a', stackup: thin, vias, unit: 'mm' })).toContain('Not to scale')
  })
})

describe('the thickness curve', () => {
  it('puts the chosen point where curve and target cross', () => {
    const choice = some(thicknesses[1])
    const svg = thicknessCurve({ id: 'a', choice, tolerance: 0.1, layerName: 'L3', unit: 'mm' })
    const point = some(
      tagsOf(svg).find((tag) => tag.name === 'circle' && tag.attributes.get('stroke') === '#ffffff'),
    )
    const target = /d="M52 ([\d.]+)L560 \1"[^>]*stroke="#0b5c7a"/.exec(svg)?.[1]
    expect(numberOf(point, 'cy')).toBe(Number(target))
  })

  it('has round ticks in the unit that is shown', () => {
    const ticks = (unit: 'mm' | 'mil'): string[] => {
      const svg = thicknessCurve({
        id: 'a',
        choice: some(thicknesses[1]),
        tolerance: 0.1,
        layerName: 'L3',
        unit,
      })
      return [...svg.matchAll(/text-anchor="middle">([\d.]+)</g)].map((match) => match[1] ?? '')
    }
    expect(ticks('mm').every((tick) => /^0\.\d\d0$/.test(tick))).toBe(true)
    expect(ticks('mil').every((tick) => /^\d+\.[05]$/.test(tick))).toBe(true)
  })
})
