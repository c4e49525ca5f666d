import { describe, expect, it } from 'vitest'
import { assemble } from '../../../src/impedance/field/assemble.ts'
import { meshProblem } from '../../../src/impedance/field/panels.ts'
import { solveProblem } from '../../../src/impedance/field/solveProblem.ts'
import type { FieldProblem, Parity, Wall } from '../../../src/impedance/field/wall.ts'
import { ellipticRatio } from '../../../src/numerics/ellipticRatio.ts'
import { FREE_SPACE_IMPEDANCE, SPEED_OF_LIGHT } from '../../../src/units/constants.ts'

type Corners = readonly [from: boolean, to: boolean]

function wall(
  [x1, y1, x2, y2]: readonly [number, number, number, number],
  conductor: number | null,
  [cornerAtFrom, cornerAtTo]: Corners = [true, true],
  left = 1,
  right = 1,
): Wall {
  return { from: { x: x1, y: y1 }, to: { x: x2, y: y2 }, conductor, left, right, cornerAtFrom, cornerAtTo }
}

function capacitance(problem: FieldProblem, parity: Parity, levels: number, order: number): number {
  const solution = solveProblem(assemble(problem, meshProblem(problem, { levels, order })), parity, false)
  return Number(solution.capacitances[0]?.[0])
}

function impedance(problem: FieldProblem, parity: Parity, levels = 8, order = 6): number {
  return 1 / (SPEED_OF_LIGHT * capacitance(problem, parity, levels, order))
}

/** A strip without thickness in the middle between planes 1 m apart, from its right edge to the axis. */
function strip(width: number): FieldProblem {
  return { walls: [wall([width / 2, 0.5, 0, 0.5], 0, [true, false])], conductors: 1, lid: 1, symmetric: true }
}

describe('solveProblem against exact conformal solutions', () => {
  // S. B. Cohn, IRE Trans. MTT-2, July 1954, pp. 52–57: Z = η0/4 · K(k)/K(k′), k = sech(πw/2b).
  it.each([0.1, 0.5, 1, 2, 4])('meets the zero-thickness stripline, width over spacing %f', (width) => {
    const x = (Math.PI * width) / 2
    const exact = (FREE_SPACE_IMPEDANCE / 4) * ellipticRatio(1 / Math.cosh(x), Math.tanh(x))
    expect(impedance(strip(width), 'even') / exact).toBeCloseTo(1, 5)
  })

  // S. B. Cohn, IRE Trans. MTT-3, Oct. 1955, pp. 29–38.
  it.each([
    [0.5, 0.2],
    [0.2, 0.1],
    [1, 0.5],
  ])('meets both modes of the edge-coupled stripline, width %f and gap %f of the spacing', (width, gap) => {
    const problem: FieldProblem = {
      walls: [wall([gap / 2 + width, 0.5, gap / 2, 0.5], 0)],
      conductors: 1,
      lid: 1,
      symmetric: true,
    }
    const one = Math.tanh((Math.PI * width) / 2)
    const other = Math.tanh((Math.PI * (width + gap)) / 2)
    const exact = (k: number): number => (FREE_SPACE_IMPEDANCE / 4) * ellipticRatio(Math.sqrt(1 - k * k), k)
    // Both halves together carry twice the charge of one trace.
    expect((2 * impedance(problem, 'even')) / exact(one * other)).toBeCloseTo(1, 5)
    expect((2 * impedance(problem, 'odd')) / exact(one / other)).toBeCloseTo(1, 5)
  })

  it('meets the offset strip in the limit of a wide one: two plates and two exact fringes', () => {
    // Fringe of a strip at height a between planes 1 apart: ε/π [ln(1/a)/(1 − a) + ln(1/(1 − a))/a], from memory.
    const [a, width] = [0.25, 6]
    const fringe = (Math.log(1 / a) / (1 - a) + Math.log(1 / (1 - a)) / a) / Math.PI
    const exact = FREE_SPACE_IMPEDANCE / (width / a + width / (1 - a) + 2 * fringe)
    const problem: FieldProblem = {
      walls: [wall([width / 2, a, 0, a], 0, [true, false])],
      conductors: 1,
      lid: 1,
      symmetric: true,
    }
    expect(impedance(problem, 'even') / exact).toBeCloseTo(1, 5)
  })

  it('meets a layered plate capacitor in the middle of a wide strip', () => {
    // Two wide strips fringe alike: their difference is plate alone, two sheets in series below, one above.
    const plate = (width: number): FieldProblem => ({
      walls: [
        wall([width / 2, 0.1, 0, 0.1], 0, [true, false], 2, 2),
        wall([0, 0.05, 12, 0.05], null, [false, false], 2, 4),
      ],
      conductors: 1,
      lid: 0.2,
      symmetric: true,
    })
    const filled = (width: number): number => capacitance(plate(width), 'even', 5, 6)
    const perMetre = (filled(6) - filled(5)) / 8.8541878128e-12
    const plates = 1 / (0.05 / 4 + 0.05 / 2) + 2 / 0.1
    expect(perMetre / plates).toBeCloseTo(1, 5)
  })

  it('converges exponentially: each further level of shrinking divides the error by about the same', () => {
    const x = Math.PI / 2
    const exact = (FREE_SPACE_IMPEDANCE / 4) * ellipticRatio(1 / Math.cosh(x), Math.tanh(x))
    const errors = [1, 2, 3, 4, 5].map((levels) =>
      Math.abs(impedance(strip(1), 'even', levels, 6) / exact - 1),
    )
    const factors = errors.slice(1).map((error, index) => Number(errors[index]) / error)
    // Panels shrink by 5 and the density is singular as r^(−1/2), so the charge missed falls by 5 a level.
    expect(factors).toEqual(factors.map((): unknown => expect.closeTo(5, 0)))
  })

  it('is the same at every scale', () => {
    const scaled: FieldProblem = {
      walls: [wall([0.5e-4, 0.5e-4, 0, 0.5e-4], 0, [true, false])],
      conductors: 1,
      lid: 1e-4,
      symmetric: true,
    }
    expect(impedance(scaled, 'even') / impedance(strip(1), 'even')).toBeCloseTo(1, 9)
  })
})
