import { describe, expect, it } from 'vitest'
import { Influence } from '../../../src/impedance/field/influence.ts'
import { lineChargePotential } from '../../../src/impedance/field/lineCharge.ts'
import type { Wall } from '../../../src/impedance/field/wall.ts'

/** A face that no influence looks at. */
const WALL: Wall = {
  from: { x: 0, y: 0 },
  to: { x: 1, y: 0 },
  conductor: 0,
  left: 1,
  right: 1,
  cornerAtFrom: true,
  cornerAtTo: true,
}

describe('the potential of a line charge between planes', () => {
  it.each([null, 1])('is what the panels’ influences make of a short panel, lid %s', (lid) => {
    const influence = new Influence(1, lid)
    const half = 1e-4
    const panel = { wall: WALL, x: 0.3, y: 0.4, half, logHalf: Math.log(half), dx: 1, dy: 0 }
    for (const [x, y] of [
      [0.35, 0.42],
      [-0.5, 0.1],
      [2.5, 0.9],
      [0.3, 0.01],
    ] as const) {
      const row = new Float64Array(1)
      influence.addPotential(row, 0, panel, { x, y }, null)
      const exact = 2 * half * lineChargePotential(x, y, 0.3, 0.4, lid)
      // Closed forms of far panels in the influences are good to 1e-7.
      expect(Math.abs(Number(row[0]) - exact)).toBeLessThan(2 * half * 1e-5)
    }
  })

  it('forgets a lid that is far away', () => {
    expect(lineChargePotential(0.3, 0.2, 0, 0.4, 1e4)).toBeCloseTo(
      lineChargePotential(0.3, 0.2, 0, 0.4, null),
      6,
    )
  })

  it('is the same seen from either end: reciprocity, which the images must keep', () => {
    for (const lid of [null, 0.7]) {
      expect(lineChargePotential(0.3, 0.2, -0.4, 0.5, lid)).toBeCloseTo(
        lineChargePotential(-0.4, 0.5, 0.3, 0.2, lid),
        12,
      )
    }
  })

  it('is none on the planes', () => {
    expect(lineChargePotential(0.3, 0, 0, 0.4, 1)).toBeCloseTo(0, 12)
    expect(lineChargePotential(0.3, 1, 0, 0.4, 1)).toBeCloseTo(0, 12)
  })

  it('is the classic wire over a plane: arcosh of height over radius on its surface', () => {
    // Equipotential circle of a line charge at √(h² − a²): potential arcosh (h/a), in every textbook of fields.
    const [height, radius] = [0.5, 0.2]
    const charge = Math.sqrt(height * height - radius * radius)
    for (const turn of [0, 1, 2, 4]) {
      const [x, y] = [radius * Math.cos(turn), height + radius * Math.sin(turn)]
      expect(lineChargePotential(x, y, 0, charge, null)).toBeCloseTo(Math.acosh(height / radius), 12)
    }
  })
})
