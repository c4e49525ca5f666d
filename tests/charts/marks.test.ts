import { describe, expect, it } from 'vitest'
import { bottomAxis, leftAxis } from '../../src/charts/axes.ts'
import { legend } from '../../src/charts/legend.ts'
import { band, box, circle, group, label, polygon, polyline, textWidth } from '../../src/charts/marks.ts'
import { scaleBar } from '../../src/charts/scaleBar.ts'

describe('marks', () => {
  it('break a line where a value is missing', () => {
    const path = polyline([
      { x: 0, y: 0 },
      { x: 1, y: 1 },
      { x: 2, y: NaN },
      { x: 3, y: 3 },
      { x: 4, y: 4 },
    ])
    expect(path).toContain('d="M0,0L1,1M3,3L4,4"')
  })

  it('round to two decimals', () => {
    expect(
      polyline([
        { x: 1 / 3, y: 2 / 3 },
        { x: 1, y: 1 },
      ]),
    ).toContain('M0.33,0.67')
    expect(polygon([{ x: 1 / 3, y: 0 }])).toContain('points="0.33,0"')
  })

  it('fill a band from its upper line back along its lower one', () => {
    const path = band([
      { x: 0, low: 1, high: 3 },
      { x: 2, low: 2, high: 4 },
    ])
    expect(path).toContain('d="M0,3L2,4L2,2L0,1Z"')
  })

  it('never have a negative size', () => {
    expect(box({ x: 0, y: 0, width: -3, height: 2 })).toContain('width="0"')
    expect(circle({ x: 0, y: 0 }, -1)).toContain('r="0"')
  })

  it('escape their text', () => {
    expect(label('a<b', { x: 0, y: 0 })).toContain('>a&lt;b<')
  })

  it('leave out an empty group', () => {
    expect(group({ fill: 'none' }, [])).toBe('')
  })
})

describe('axes', () => {
  const spec = {
    scale: (value: number) => 10 * value,
    ticks: [1, 2, 3],
    format: (value: number) => `${value}!`,
    title: 'length, mm',
    from: 0,
    to: 40,
    at: 5,
    gridTo: 5,
  }

  it('put each tick where the scale says, with its number', () => {
    const below = bottomAxis(spec)
    for (const tick of spec.ticks) {
      expect(below).toContain(`M${10 * tick} 5L${10 * tick} 10`)
      expect(below).toContain(`>${tick}!</text>`)
    }
    expect(leftAxis(spec)).toContain('M0 20L5 20')
  })

  it('name what runs along them', () => {
    expect(bottomAxis(spec)).toContain('>length, mm</text>')
    expect(leftAxis(spec)).toContain('>length, mm</text>')
  })

  it('draw grid lines as far as asked', () => {
    expect(bottomAxis({ ...spec, gridTo: 90 })).toContain('M20 5L20 90')
    expect(leftAxis({ ...spec, gridTo: 90 })).toContain('M5 20L90 20')
  })
})

describe('a legend', () => {
  const entries = Array.from({ length: 6 }, (_, index) => ({ text: `entry number ${index}` }))

  it('goes on in a new row where the width ends', () => {
    const wide = legend(entries, { x: 0, y: 0, width: 10_000 })
    const narrow = legend(entries, { x: 0, y: 0, width: 200 })
    expect(narrow.height).toBeGreaterThan(wide.height)
    const columns = [...narrow.drawing.matchAll(/translate\((\d+) /g)].map((match) => Number(match[1]))
    expect(Math.max(...columns)).toBeLessThan(200)
  })

  it('takes no room without entries', () => {
    expect(legend([], { x: 0, y: 0, width: 100 })).toEqual({ drawing: '', height: 0 })
  })
})

describe('a scale bar', () => {
  it('is as long as it says, level or upright', () => {
    expect(scaleBar({ x: 10, y: 20, length: 50, text: '1 mm' })).toContain('M10 20L60 20')
    expect(scaleBar({ x: 10, y: 90, length: 50, text: '1 mm', upright: true })).toContain('M10 90L10 40')
  })

  it.each([0, -1, NaN])('of length %d is refused', (length) => {
    expect(() => scaleBar({ x: 0, y: 0, length, text: '' })).toThrow(RangeError)
  })
})

describe('the width of text', () => {
  it('grows with its letters and its size', () => {
    expect(textWidth('aaaa', 10)).toBe(2 * textWidth('aa', 10))
    expect(textWidth('aa', 20)).toBe(2 * textWidth('aa', 10))
  })
})
