import { describe, expect, it } from 'vitest'
import { equipotentials } from '../../../src/impedance/field/equipotentials.ts'
import type { FieldGrid } from '../../../src/impedance/field/equipotentials.ts'

const lines = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count }, (_, index) => from + ((to - from) * index) / (count - 1))

function grid(xs: readonly number[], ys: readonly number[], at: (x: number, y: number) => number): FieldGrid {
  return { xs, ys, values: ys.flatMap((y) => xs.map((x) => at(x, y))) }
}

describe('equipotentials', () => {
  it('of a straight field is a straight line from edge to edge, wherever the lines of the grid lie', () => {
    const uneven = grid([-1, -0.9, 0.2, 1], [0, 0.1, 0.7, 0.75, 2], (_, y) => y / 2)
    const [line, ...others] = equipotentials(uneven, [0.3], 1e-9)
    expect(others).toEqual([])
    const ends = [...(line?.points ?? [])].sort((first, second) => first.x - second.x)
    expect(ends).toHaveLength(2)
    expect(ends.map(({ x }) => x)).toEqual([-1, 1])
    for (const { y } of ends) expect(y).toBeCloseTo(0.6, 12)
  })

  it('of a round field is a closed circle, to the square of the cell', () => {
    const cell = 0.05
    const [circle, ...others] = equipotentials(
      grid(lines(-1, 1, 41), lines(-1, 1, 41), (x, y) => 1 - Math.hypot(x, y)),
      [0.4],
      1e-9,
    )
    expect(others).toEqual([])
    expect(circle?.points.at(-1)).toEqual(circle?.points[0])
    for (const { x, y } of circle?.points ?? []) {
      expect(Math.abs(Math.hypot(x, y) - 0.6)).toBeLessThan((cell * cell) / 8 / 0.6)
    }
  })

  it('comes in pieces where the edge of the grid cuts it', () => {
    const found = equipotentials(
      grid(lines(-1, 1, 41), lines(-1, 1, 41), (x, y) => 2 - Math.hypot(x, y)),
      [0.8],
      1e-9,
    )
    expect(found).toHaveLength(4)
    for (const { points } of found) {
      for (const end of [points[0], points.at(-1)]) {
        expect(Math.max(Math.abs(end?.x ?? 0), Math.abs(end?.y ?? 0))).toBeCloseTo(1, 9)
      }
    }
  })

  it('is nothing for a level that the field does not reach', () => {
    expect(
      equipotentials(
        grid([0, 1], [0, 1], (x) => x),
        [1.5, -0.5],
        0,
      ),
    ).toEqual([])
  })

  it('refuses a grid without cells, or with other values than crossings', () => {
    expect(() => equipotentials({ xs: [0], ys: [0, 1], values: [0, 1] }, [0.5], 0)).toThrow(RangeError)
    expect(() => equipotentials({ xs: [0, 1], ys: [0, 1], values: [0, 1, 2] }, [0.5], 0)).toThrow(RangeError)
  })
})
