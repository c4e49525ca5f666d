import { describe, expect, it } from 'vitest'
import { gaussLegendre, legendreValues } from '../../../src/impedance/field/gaussLegendre.ts'
import { lineChargePotential } from '../../../src/impedance/field/lineCharge.ts'
import { lineChargeField } from '../../../src/impedance/field/lineChargeField.ts'
import type { Sides } from '../../../src/impedance/field/chargeView.ts'
import { MeshInfluence } from '../../../src/impedance/field/meshInfluence.ts'
import type { Panel } from '../../../src/impedance/field/panels.ts'
import type { Point } from '../../../src/units/quantity.ts'

const ORDER = 4

function panelAt(x: number, y: number, half: number, dx: number, dy: number): Panel {
  const wall = {
    from: { x: x - half * dx, y: y - half * dy },
    to: { x: x + half * dx, y: y + half * dy },
    conductor: 0,
    left: 1,
    right: 1,
    cornerAtFrom: false,
    cornerAtTo: false,
  }
  return { wall, x, y, half, logHalf: Math.log(half), dx, dy }
}

function seenFrom(
  panel: Panel,
  lid: number | null,
  sides: Sides,
  place: Point,
  normal: Point | null,
  own: number | null = null,
): { row: number[]; left: number[] } {
  const influence = new MeshInfluence({ panels: [panel], order: ORDER }, lid, sides)
  const [row, left] = [new Float64Array(ORDER), new Float64Array(ORDER)]
  influence.lookFrom(place, normal)
  influence.add(row, sides === 'apart' ? left : row, 0, 0, own)
  return { row: [...row], left: [...left] }
}

/** By brute force: many Gauss points on each of many pieces of the panel; `mirrored` takes its like on the left. */
function integral(
  panel: Panel,
  lid: number | null,
  { x, y }: Point,
  normal: Point | null,
  mirrored = false,
): number[] {
  const { nodes, weights } = gaussLegendre(20)
  const sums = new Array<number>(ORDER).fill(0)
  const pieces = 40
  for (let piece = 0; piece < pieces; piece += 1) {
    nodes.forEach((node, index) => {
      const along = (2 * piece + 1 + node) / pieces - 1
      const fromX = (mirrored ? -1 : 1) * (panel.x + along * panel.half * panel.dx)
      const fromY = panel.y + along * panel.half * panel.dy
      const seen =
        normal === null
          ? lineChargePotential(x, y, fromX, fromY, lid)
          : lineChargeField([x, y], [fromX, fromY], lid, [normal.x, normal.y])
      legendreValues(ORDER, along).forEach((value, k) => {
        sums[k] = Number(sums[k]) + ((Number(weights[index]) * panel.half) / pieces) * seen * value
      })
    })
  }
  return sums
}

/** Largest difference over a scale. */
function miss(found: readonly number[], exact: readonly number[], scale: number): number {
  return Math.max(...found.map((value, k) => Math.abs(value - Number(exact[k])))) / scale
}

const TOLERANCE = 2e-7

/** Beside the panel, below its image in the lid, above that in the plane, and far; all x ≥ 0, as in a right half. */
const PLACES: readonly (readonly [string, Panel, Point])[] = [
  ['close beside it', panelAt(0.4, 0.3, 0.05, 0.8, 0.6), { x: 0.33, y: 0.34 }],
  ['in its own line', panelAt(0.4, 0.3, 0.05, 1, 0), { x: 0.46, y: 0.3 }],
  ['near it and its image in the plane', panelAt(0.4, 0.03, 0.05, 0.8, -0.6), { x: 0.45, y: 0.05 }],
  ['near it and its image in the lid', panelAt(0.4, 0.76, 0.05, 1, 0), { x: 0.45, y: 0.74 }],
  ['near it and its like on the left', panelAt(0.04, 0.4, 0.03, 0.8, 0.6), { x: 0.02, y: 0.47 }],
  ['at five half lengths', panelAt(0.4, 0.3, 0.05, 0.6, 0.8), { x: 0.15, y: 0.33 }],
  ['at twelve half lengths', panelAt(0.4, 0.3, 0.02, 0.6, 0.8), { x: 0.16, y: 0.33 }],
  ['at fifty half lengths', panelAt(1, 0.3, 0.01, 0.6, 0.8), { x: 0.5, y: 0.5 }],
  ['beside a panel that is long against the planes', panelAt(0.6, 0.3, 0.5, 1, 0), { x: 0.4, y: 0.5 }],
]

const NORMALS: readonly (readonly [string, Point | null])[] = [
  ['potential', null],
  ['field', { x: 0.28, y: 0.96 }],
]

describe.each([
  ['one plane', null],
  ['two planes', 0.8],
])('MeshInfluence between %s', (_, lid) => {
  describe.each(NORMALS)('of the %s', (__, normal) => {
    it.each(PLACES)('is the integral of all images, %s', (___, panel, place) => {
      const [right, left] = [false, true].map((side) => integral(panel, lid, place, normal, side))
      if (right === undefined || left === undefined) throw new Error('two sides')
      const scale = Math.max(...right.map(Math.abs))
      const apart = seenFrom(panel, lid, 'apart', place, normal)
      expect(miss(apart.row, right, scale)).toBeLessThan(TOLERANCE)
      expect(miss(apart.left, left, scale)).toBeLessThan(TOLERANCE)
      expect(miss(seenFrom(panel, lid, 'right', place, normal).row, right, scale)).toBeLessThan(TOLERANCE)
      const sum = right.map((value, k) => value + Number(left[k]))
      expect(miss(seenFrom(panel, lid, 'sum', place, normal).row, sum, scale)).toBeLessThan(TOLERANCE)
      const difference = right.map((value, k) => value - Number(left[k]))
      expect(miss(seenFrom(panel, lid, 'difference', place, normal).row, difference, scale)).toBeLessThan(
        TOLERANCE,
      )
    })
  })

  it('on the panel itself is the limit from both sides', () => {
    const panel = panelAt(0.4, 0.3, 0.05, 0.8, 0.6)
    const normal = { x: -0.6, y: 0.8 }
    // A Gauss point of a rule, where a line charge would stand at the very place, and another place.
    for (const own of [gaussLegendre(ORDER).nodes[1] ?? 0, 0.37]) {
      const at = (away: number): Point => ({
        x: 0.4 + 0.05 * own * 0.8 - 0.6 * away,
        y: 0.3 + 0.05 * own * 0.6 + 0.8 * away,
      })
      const potential = seenFrom(panel, lid, 'right', at(0), null, own).row
      expect(miss(potential, seenFrom(panel, lid, 'right', at(1e-10), null).row, 0.1)).toBeLessThan(TOLERANCE)
      const field = seenFrom(panel, lid, 'right', at(0), normal, own).row
      const [above, below] = [1e-9, -1e-9].map((away) => seenFrom(panel, lid, 'right', at(away), normal).row)
      const mean = field.map((___, k) => (Number(above?.[k]) + Number(below?.[k])) / 2)
      expect(miss(field, mean, Math.PI)).toBeLessThan(TOLERANCE)
    }
  })
})

describe('MeshInfluence in a picture that is very wide against its planes', () => {
  const lid = 0.001
  const panel = panelAt(0.4, 0.0003, 0.00005, 0.8, 0.6)

  it.each(NORMALS)('has the same %s as in a narrow one', (_, normal) => {
    const near = panelAt(0.0004, 0.0003, 0.00005, 0.8, 0.6)
    const scale = normal === null ? 0.0001 : 1
    for (const away of [0.00007, 0.0004, 0.002]) {
      const wide = seenFrom(panel, lid, 'right', { x: 0.4 + away, y: 0.0004 }, normal).row
      const narrow = seenFrom(near, lid, 'right', { x: 0.0004 + away, y: 0.0004 }, normal).row
      expect(miss(wide, narrow, scale)).toBeLessThan(TOLERANCE)
    }
  })

  it.each(NORMALS)('has no %s far away, and a finite one', (_, normal) => {
    expect(
      miss(seenFrom(panel, lid, 'apart', { x: 0, y: 0.0004 }, normal).row, [0, 0, 0, 0], 1e-6),
    ).toBeLessThan(TOLERANCE)
  })

  it('refuses a panel that the mesh does not have', () => {
    const influence = new MeshInfluence({ panels: [panel], order: ORDER }, lid, 'right')
    const row = new Float64Array(ORDER)
    expect(() => {
      influence.add(row, row, 0, 1, null)
    }).toThrow(/1 panels, got 1/)
  })
})
