import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { atLeastLayers } from '../../../src/escape/capacity/atLeastLayers.ts'
import { layerCapacity } from '../../../src/escape/capacity/layerCapacity.ts'
import { full, mapOf, ONE_TRACE } from './maps.ts'

describe('atLeastLayers', () => {
  // All choices of layers are tried.
  it('is the size of the smallest set of layers that could do', () => {
    const bounds = fc.array(fc.integer({ min: 0, max: 60 }), { maxLength: 8 })
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 200 }), bounds, (signals, atMost) => {
        const sizes = Array.from({ length: 2 ** atMost.length }, (_, bits) =>
          atMost.filter((_most, layer) => ((bits >> layer) & 1) === 1),
        )
          .filter((chosen) => chosen.reduce((sum, most) => sum + most, 0) >= signals)
          .map((chosen) => chosen.length)
        expect(atLeastLayers(signals, atMost)).toBe(sizes.length === 0 ? null : Math.min(...sizes))
      }),
      { seed: 17, numRuns: 500 },
    )
  })

  // Row rule for blind vias and one trace per channel, common practice, no source: each layer frees two rings.
  it('is never more than the row rule needs for full arrays', () => {
    for (let rows = 4; rows <= 20; rows += 1) {
      const bound = layerCapacity(mapOf(full(rows, rows), ONE_TRACE)).atMost
      const least = atLeastLayers(rows * rows, new Array<number>(20).fill(bound))
      expect(least).toBeLessThanOrEqual(Math.ceil(Math.ceil(rows / 2) / 2))
      expect(least).toBeGreaterThanOrEqual(Math.ceil((rows * rows) / (8 * (rows - 1))))
    }
  })

  it('needs no layer for no signals, and finds none without layers', () => {
    expect(atLeastLayers(0, [])).toBe(0)
    expect(atLeastLayers(1, [])).toBeNull()
    expect(atLeastLayers(1, [0, 0])).toBeNull()
  })

  it.each([
    [-1, [1]],
    [0.5, [1]],
    [1, [NaN]],
    [1, [-1]],
  ])('refuses %s signals and bounds %s', (signals, atMost) => {
    expect(() => atLeastLayers(signals, atMost)).toThrow(RangeError)
  })
})
