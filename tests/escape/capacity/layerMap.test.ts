import { describe, expect, it } from 'vitest'
import { assertLayerMap, tracesThrough } from '../../../src/escape/capacity/layerMap.ts'
import type { LayerMap } from '../../../src/escape/capacity/layerMap.ts'
import { full, mapOf, ONE_TRACE } from './maps.ts'

const map = mapOf(full(3, 4), ONE_TRACE, 0)

describe('assertLayerMap', () => {
  it('takes coordinates that rise and that fall', () => {
    expect(() => {
      assertLayerMap({ ...map, xs: [3, 2, 1, 0], ys: [0, 1, 2] })
    }).not.toThrow()
  })

  it.each<[string, Partial<LayerMap>, string]>([
    ['two columns at one place', { xs: [0, 1, 1, 2] }, 'columns must rise or fall'],
    ['rows that turn back', { ys: [0, 2, 1] }, 'rows must rise or fall'],
    ['a place that is no number', { ys: [0, NaN, 2] }, 'got NaN m at 1'],
    ['a missing row of reaches', { reach: [[0, 0, 0, 0]] }, '3 × 4 sites'],
    ['a negative reach', { reach: map.reach.map((row) => row.map(() => -1e-6)) }, 'a reach must be ≥ 0 m'],
    ['no width', { width: 0 }, 'a trace width must be > 0 m, got 0 m'],
    ['no gap', { gap: NaN }, 'a trace gap must be > 0 m, got NaN m'],
    ['a tolerance as large as a trace', { tolerance: map.width }, 'below the trace width'],
    ['a source beside the grid', { sources: [{ row: 3, column: 0 }] }, 'row 3, column 0, outside'],
    [
      'two sources at one site',
      {
        sources: [
          { row: 0, column: 0 },
          { row: 0, column: 0 },
        ],
      },
      'share a site',
    ],
  ])('refuses %s', (_, change, message) => {
    const refused = (): void => {
      assertLayerMap({ ...map, ...change })
    }
    expect(refused).toThrow(RangeError)
    expect(refused).toThrow(message)
  })
})

describe('tracesThrough', () => {
  // Intel/Altera AN 114: two traces need 3 gaps + 2 widths between pads; three need 4 gaps + 3 widths. Clear of the gaps to the
  // pads that is 2 widths + 1 gap and 3 widths + 2 gaps.
  it('needs a gap less than it has traces', () => {
    const lines = { ...map, width: 0.1, gap: 0.25, tolerance: 0 }
    expect([0.09, 0.1001, 0.44, 0.4501, 0.79, 0.8001].map((clear) => tracesThrough(lines, clear))).toEqual([
      0, 1, 1, 2, 2, 3,
    ])
  })

  it('finds none in a way that is closed', () => {
    expect([0, -1, -100].map((clear) => tracesThrough(map, clear))).toEqual([0, 0, 0])
  })
})
