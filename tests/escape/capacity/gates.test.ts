import { describe, expect, it } from 'vitest'
import { gatesOf } from '../../../src/escape/capacity/gates.ts'
import { layerCapacity } from '../../../src/escape/capacity/layerCapacity.ts'
import type { Site } from '../../../src/escape/capacity/layerMap.ts'
import { full, mapOf, ONE_TRACE } from './maps.ts'

const map = mapOf(full(9, 9), ONE_TRACE)
const capacity = layerCapacity(map)
const at = ({ row, column }: Site): { x: number; y: number } => ({
  x: map.xs[column] ?? NaN,
  y: map.ys[row] ?? NaN,
})

describe('gatesOf', () => {
  it('names the balls of each gate and places it between them', () => {
    const gates = gatesOf(capacity, (site) => ({
      ball: `${'ABCDEFGHJ'[site.row] ?? ''}${site.column + 1}`,
      at: at(site),
    }))
    expect(gates).toHaveLength(32)
    const first = gates.find(({ balls }) => [...balls].sort((a, b) => a.localeCompare(b)).join() === 'A1,A2')
    expect(first).toMatchObject({ traces: 1, from: { y: map.ys[0] }, to: { y: map.ys[0] } })
    expect(first?.clear).toBeCloseTo(35e-6, 12)
    for (const { from, to, clear } of gates) {
      expect(Math.hypot(from.x - to.x, from.y - to.y) - 115e-6).toBeCloseTo(clear, 12)
    }
  })

  it('refuses a site that nothing is known of', () => {
    expect(() => gatesOf(capacity, () => null)).toThrow('no ball stands at row')
  })
})
