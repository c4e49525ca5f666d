import { describe, expect, it } from 'vitest'
import { gaussLegendre, legendreValues } from '../../../src/impedance/field/gaussLegendre.ts'
import { Influence } from '../../../src/impedance/field/influence.ts'
import { lineChargePotential } from '../../../src/impedance/field/lineCharge.ts'
import { lineChargeField } from '../../../src/impedance/field/lineChargeField.ts'
import type { Panel } from '../../../src/impedance/field/panels.ts'

const ORDER = 4
const HALF = 0.05
const panel: Panel = {
  wall: {
    from: { x: -0.04, y: 0.27 },
    to: { x: 0.04, y: 0.33 },
    conductor: 0,
    left: 1,
    right: 1,
    cornerAtFrom: false,
    cornerAtTo: false,
  },
  x: 0,
  y: 0.3,
  half: HALF,
  logHalf: Math.log(HALF),
  dx: 0.8,
  dy: 0.6,
}

/** By brute force: many Gauss points on the panel. */
function integral(kernel: (x: number, y: number) => number): number[] {
  const { nodes, weights } = gaussLegendre(40)
  return nodes.reduce<number[]>((sums, node, index) => {
    const seen = kernel(panel.x + node * HALF * panel.dx, panel.y + node * HALF * panel.dy)
    const values = legendreValues(ORDER, node)
    return sums.map((sum, k) => sum + Number(weights[index]) * HALF * seen * Number(values[k]))
  }, new Array<number>(ORDER).fill(0))
}

// Both sides of the branch at four half lengths, and far off; at 0.2 the image in the plane is the nearest one.
describe.each([
  ['one plane', null],
  ['two planes', 0.8],
])('Influence of a panel between %s', (_, lid) => {
  it.each([1.5, 3.9, 3.999, 4.001, 4.1, 8, 30])('is its integral, %f half lengths away', (distance) => {
    const [x, y] = [-0.6 * distance * HALF, 0.3 + 0.8 * Math.min(distance, 5) * HALF]
    const influence = new Influence(ORDER, lid)
    const potential = new Float64Array(ORDER)
    influence.addPotential(potential, 0, panel, { x, y }, null)
    const field = new Float64Array(ORDER)
    influence.addField(field, 0, panel, { x, y }, null, { x: 0.28, y: 0.96 })
    const exactPotential = integral((fromX, fromY) => lineChargePotential(x, y, fromX, fromY, lid))
    const exactField = integral((fromX, fromY) => lineChargeField([x, y], [fromX, fromY], lid, [0.28, 0.96]))
    exactPotential.forEach((exact, k) => {
      expect(Number(potential[k])).toBeCloseTo(exact, 8)
      expect(Number(field[k])).toBeCloseTo(Number(exactField[k]), 6)
    })
  })
})
