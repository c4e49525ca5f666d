import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { lineChargePotential } from '../../../src/impedance/field/lineCharge.ts'
import { lineChargeField } from '../../../src/impedance/field/lineChargeField.ts'

const STEP = 1e-5
const place = fc.double({ min: 0.1, max: 0.9, noNaN: true })
const across = fc.double({ min: -3, max: 3, noNaN: true })

describe.each([
  ['one plane', null],
  ['two planes', 1],
])('lineChargeField between %s', (_, lid) => {
  it('is minus the slope of the potential', () => {
    fc.assert(
      fc.property(across, place, place, (x, y, fromY) => {
        fc.pre(Math.hypot(x, y - fromY) > 0.2)
        const potential = (dx: number, dy: number): number =>
          lineChargePotential(x + dx, y + dy, 0, fromY, lid)
        const slopeX = (potential(STEP, 0) - potential(-STEP, 0)) / (2 * STEP)
        const slopeY = (potential(0, STEP) - potential(0, -STEP)) / (2 * STEP)
        expect(lineChargeField([x, y], [0, fromY], lid, [1, 0])).toBeCloseTo(-slopeX, 6)
        expect(lineChargeField([x, y], [0, fromY], lid, [0, 1])).toBeCloseTo(-slopeY, 6)
      }),
      { seed: 20261125, numRuns: 200 },
    )
  })

  it('has no part along the plane, on it', () => {
    expect(lineChargeField([0.3, 0], [0, 0.4], lid, [1, 0])).toBeCloseTo(0, 12)
  })
})

describe('lineChargeField', () => {
  it('dies away between two planes, without overflow', () => {
    expect(lineChargeField([5000, 0.5], [0, 0.5], 1, [1, 0])).toBe(0)
    expect(
      lineChargeField([3, 0.5], [0, 0.5], 1, [1, 0]) / (2 * Math.PI * Math.exp(-3 * Math.PI)),
    ).toBeCloseTo(1, 4)
  })
})
