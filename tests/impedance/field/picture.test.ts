import { describe, expect, it } from 'vitest'
import { type Picture, pictureProblem } from '../../../src/impedance/field/picture.ts'
import { viaBody } from '../../../src/impedance/field/viaBody.ts'
import { GROUNDED, type Wall } from '../../../src/impedance/field/wall.ts'
import { webBodies } from '../../../src/impedance/field/webBodies.ts'

const empty: Picture = {
  slabs: [
    { bottom: 0, permittivity: 4 },
    { bottom: 3, permittivity: 3 },
    { bottom: 5, permittivity: 3 },
    { bottom: 6, permittivity: 2 },
  ],
  bodies: [],
  foils: [],
  surface: null,
  left: 0,
  right: 20,
  sharpUntil: 20,
  lid: 9,
  symmetric: true,
  conductors: 1,
}
const wallsOf = (change: Partial<Picture>): readonly Wall[] => pictureProblem({ ...empty, ...change }).walls
const ends = ({ from, to }: Wall): number[] => [from.x, from.y, to.x, to.y]
const corners = (walls: readonly Wall[]): string[] => [
  ...new Set(
    walls.flatMap(({ from, to, cornerAtFrom, cornerAtTo }) => [
      ...(cornerAtFrom ? [`${from.x} ${from.y}`] : []),
      ...(cornerAtTo ? [`${to.x} ${to.y}`] : []),
    ]),
  ),
]

describe('pictureProblem', () => {
  it('has an interface where the permittivity changes, and nowhere else', () => {
    expect(wallsOf({}).map(ends)).toEqual([
      [0, 3, 20, 3],
      [0, 6, 20, 6],
    ])
    expect(wallsOf({}).map(({ left, right }) => [left, right])).toEqual([
      [3, 4],
      [2, 3],
    ])
  })

  it('splits the faces of a body that an interface meets, and interrupts the interface', () => {
    const barrel = viaBody({ middle: 10, barrel: 4, pad: 0, low: 3, high: 4, end: 9 })
    const walls = wallsOf({ bodies: [barrel] })
    const left = walls.filter(
      ({ from, to, conductor }) => conductor === GROUNDED && from.x === 8 && to.x === 8,
    )
    expect(left.map(({ from, to, left: outside }) => [from.y, to.y, outside])).toEqual([
      [0, 3, 4],
      [3, 4, 3],
      [4, 6, 3],
      [6, 9, 2],
    ])
    const interfaces = walls.filter(({ conductor }) => conductor === null)
    expect(interfaces.map(ends)).toEqual([
      [0, 3, 8, 3],
      [12, 3, 20, 3],
      [0, 6, 8, 6],
      [12, 6, 20, 6],
    ])
    // From plane to plane at right angles: nothing is singular.
    expect(corners(walls)).toEqual([])
  })

  it('takes the convex corners of a pad for sharp, the concave ones at its barrel for none', () => {
    const via = viaBody({ middle: 10, barrel: 2, pad: 6, low: 3, high: 4, end: 9 })
    expect(corners(wallsOf({ bodies: [via] })).sort()).toEqual(['13 3', '13 4', '7 3', '7 4'])
    // Interfaces end in the corners of the pad that stands on them; those beyond the middle can be left out.
    expect(corners(wallsOf({ bodies: [via], sharpUntil: 10 })).sort()).toEqual(['7 3', '7 4'])
  })

  it('leaves out edges on the planes, the axis and the far side', () => {
    const { bodies, foils } = webBodies({
      halfChannel: 4,
      opening: 5,
      low: 1,
      thickness: 0.5,
      seen: 1.5,
      right: 20,
    })
    const walls = wallsOf({ bodies, foils })
    expect(walls.filter(({ conductor }) => conductor !== null).map(ends)).toEqual([
      [0, 1.5, 1.5, 1.5],
      [1.5, 1.5, 1.5, 1],
      [1.5, 1, 0, 1],
      [6.5, 1.5, 9.5, 1.5],
      [14.5, 1.5, 20, 1.5],
    ])
    expect(corners(walls).sort()).toEqual(['1.5 1', '1.5 1.5', '14.5 1.5', '6.5 1.5', '9.5 1.5'])
  })

  it('leaves no web where the openings run into each other', () => {
    const { bodies, foils } = webBodies({
      halfChannel: 4,
      opening: 8,
      low: 1,
      thickness: 0.5,
      seen: 1.5,
      right: 20,
    })
    expect(bodies).toEqual([])
    expect(foils).toEqual([{ from: 16, to: 20, y: 1.5 }])
  })

  it('draws the barrel of a pad on an outer layer up to the face of the pad', () => {
    const { outline } = viaBody({ middle: 10, barrel: 2, pad: 6, low: 3, high: 4, end: 4 })
    expect(Math.max(...outline.map(({ y }) => y))).toBe(4)
    expect(Math.min(...outline.map(({ y }) => y))).toBe(0)
  })
})
