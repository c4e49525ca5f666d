import { describe, expect, it } from 'vitest'
import { checkProblem } from '../../../src/impedance/field/checkProblem.ts'
import { GROUNDED, type FieldProblem, type Wall } from '../../../src/impedance/field/wall.ts'

type Ends = readonly [x1: number, y1: number, x2: number, y2: number]

function wall([x1, y1, x2, y2]: Ends, conductor: number | null, left = 1, right = 1): Wall {
  return {
    from: { x: x1, y: y1 },
    to: { x: x2, y: y2 },
    conductor,
    left,
    right,
    cornerAtFrom: true,
    cornerAtTo: true,
  }
}

function box(conductor: number, x: number, y: number, width: number, height: number): Wall[] {
  return [
    wall([x, y, x, y + height], conductor),
    wall([x, y + height, x + width, y + height], conductor),
    wall([x + width, y + height, x + width, y], conductor),
    wall([x + width, y, x, y], conductor),
  ]
}

const check =
  (walls: readonly Wall[], change: Partial<FieldProblem> = {}) =>
  () => {
    checkProblem({ walls, conductors: 2, lid: 1, symmetric: false, ...change })
  }

describe('checkProblem', () => {
  it.each([
    ['two conductors apart', [...box(0, 0, 0.2, 0.1, 0.1), ...box(1, 0.2, 0.2, 0.1, 0.1)]],
    [
      'an interface that ends at corners and passes by',
      [...box(0, 0, 0.2, 0.1, 0.1), wall([0.1, 0.2, 2, 0.2], null, 2, 3)],
    ],
    [
      'an interface that ends on a face',
      [...box(0, 0, 0.2, 0.1, 0.1), wall([0.1, 0.25, 2, 0.25], null, 2, 3)],
    ],
    ['ground that stands on the plane', [...box(0, 0, 0.2, 0.1, 0.1), wall([0.3, 0, 0.3, 1], GROUNDED)]],
    ['a foil', [wall([0, 0.5, 1, 0.5], 0)]],
  ])('lets pass %s', (_, walls) => {
    expect(check(walls)).not.toThrow()
  })

  it.each([
    [
      'conductors that overlap',
      [...box(0, 0, 0.2, 0.2, 0.1), ...box(1, 0.1, 0.25, 0.2, 0.1)],
      'conductor 0 and conductor 1 touch or overlap at x = ',
    ],
    [
      'conductors that touch along a face',
      [...box(0, 0, 0.2, 0.1, 0.1), ...box(1, 0.1, 0.22, 0.1, 0.02)],
      'touch or overlap',
    ],
    [
      'conductors that touch in a corner',
      [...box(0, 0, 0.2, 0.1, 0.1), ...box(1, 0.1, 0.3, 0.1, 0.1)],
      'touch or overlap at x = 0.1 m',
    ],
    [
      'a conductor that touches ground',
      [...box(0, 0, 0.2, 0.1, 0.1), wall([0.1, 0, 0.1, 1], GROUNDED)],
      'conductor 0 and a grounded conductor touch',
    ],
    [
      'an interface across a conductor',
      [...box(0, 0, 0.2, 0.1, 0.1), wall([-1, 0.25, 2, 0.25], null, 2, 3)],
      'conductor 0 crosses a dielectric interface at',
    ],
    [
      'a face that lies along an interface',
      [...box(0, 0, 0.2, 0.1, 0.1), wall([-1, 0.2, 2, 0.2], null, 2, 3)],
      'conductor 0 crosses a dielectric interface',
    ],
    [
      'a number that is none',
      [wall([0, NaN, 1, 0.5], 0)],
      'conductor 0 has a wall that is not finite: 0, NaN, 1, 0.5 m',
    ],
    ['a place without end', [wall([0, 0.5, Infinity, 0.5], null)], 'is not finite'],
    ['no length', [wall([1, 0.5, 1, 0.5], 0)], 'a wall without length at x = 1 m, y = 0.5 m'],
    ['a permittivity below 1', [wall([0, 0.5, 1, 0.5], null, 1, 0.5)], 'must be at least 1, got 0.5'],
    [
      'a conductor on the plane',
      [wall([0, 0, 1, 0.5], 0)],
      'conductor 0 touches or passes the plane at y = 0 m',
    ],
    ['a wall along the plane', [wall([0, 0, 1, 0], GROUNDED)], 'touches or passes the plane at y = 0 m'],
    ['a wall below the plane', [wall([0, -0.1, 1, 0.5], null)], 'touches or passes the plane at y = 0 m'],
    ['a wall above the lid', [wall([0, 0.5, 1, 1.1], GROUNDED)], 'touches or passes the plane at y = 1 m'],
    ['a conductor at the lid', [wall([0, 0.5, 1, 1], 1)], 'touches or passes the plane at y = 1 m'],
    [
      'a conductor without a voltage',
      [wall([0, 0.5, 1, 0.5], 2)],
      'conductor 2 is not one of the 2 conductors',
    ],
  ])('refuses %s', (_, walls, message) => {
    expect(check(walls)).toThrow(RangeError)
    expect(check(walls)).toThrow(message)
  })

  it('refuses walls left of an axis of symmetry', () => {
    expect(check(box(0, -0.05, 0.2, 0.1, 0.1), { symmetric: true })).toThrow(
      'lies left of the axis of symmetry',
    )
  })
})
