import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { assemble } from '../../../src/impedance/field/assemble.ts'
import { meshProblem } from '../../../src/impedance/field/panels.ts'
import { potentialOf } from '../../../src/impedance/field/potential.ts'
import type { Potential } from '../../../src/impedance/field/potential.ts'
import { solveProblem } from '../../../src/impedance/field/solveProblem.ts'
import type { FieldProblem, Parity, Wall } from '../../../src/impedance/field/wall.ts'
import { ELECTRIC_CONSTANT } from '../../../src/units/constants.ts'

/** What the potential claims, in volts of one. */
const CLAIM = 1e-5

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

function solved(
  problem: FieldProblem,
  parity: Parity,
  levels = 8,
): { potential: Potential; capacitance: number } {
  const assembly = assemble(problem, meshProblem(problem, { levels, order: 6 }))
  const solution = solveProblem(assembly, parity, false)
  return {
    potential: potentialOf(problem, parity, solution, [1]),
    capacitance: Number(solution.capacitances[0]?.[0]),
  }
}

const WIDTH = 0.8
/** A strip without thickness in the middle between planes 1 m apart. */
const strip: FieldProblem = {
  walls: [wall([WIDTH / 2, 0.5, 0, 0.5], 0, [true, false])],
  conductors: 1,
  lid: 1,
  symmetric: true,
}

/** Coupled strips, and a pair of square bars above one plane under a slab. */
const pair: FieldProblem = { ...strip, walls: [wall([0.6, 0.5, 0.2, 0.5], 0)] }
const bars: FieldProblem = {
  walls: [
    wall([0.2, 0.4, 0.2, 0.6], 0),
    wall([0.2, 0.6, 0.5, 0.6], 0),
    wall([0.5, 0.6, 0.5, 0.4], 0),
    wall([0.5, 0.4, 0.2, 0.4], 0, [true, true], 3, 3),
    wall([0, 0.4, 0.2, 0.4], null, [false, true], 1, 3),
    wall([0.5, 0.4, 20, 0.4], null, [true, false], 1, 3),
  ],
  conductors: 1,
  lid: null,
  symmetric: true,
}

/** F(φ, k), the incomplete elliptic integral of the first kind, by Simpson's rule. */
function ellipticF(phi: number, k: number): number {
  const steps = 4000
  const at = (index: number): number => 1 / Math.sqrt(1 - (k * Math.sin((phi * index) / steps)) ** 2)
  let sum = at(0) + at(steps)
  for (let index = 1; index < steps; index += 1) sum += (index % 2 === 0 ? 2 : 4) * at(index)
  return (sum * phi) / steps / 3
}

describe('the potential of a field solution', () => {
  // tanh πz takes the strip's lower half to a half plane, and sn⁻¹ that to a rectangle whose height is the
  // voltage: the mapping of S. B. Cohn, IRE Trans. MTT-2, July 1954, pp. 52–57, followed to the potential.
  const k = 1 / Math.cosh((Math.PI * WIDTH) / 2)
  const whole = ellipticF(Math.PI / 2, k)
  const { potential, capacitance } = solved(strip, 'even')

  it.each([0.01, 0.1, 0.2, 0.3, 0.45, 0.49, 0.6, 0.9])(
    'is exact on the axis of a stripline, height %f',
    (y) => {
      const exact = ellipticF(Math.PI * Math.min(y, 1 - y), k) / whole
      expect(Math.abs(potential(0, y) - exact)).toBeLessThan(CLAIM)
    },
  )

  it.each([0.401, 0.42, 0.5, 0.7, 1, 2])('is exact beside the strip, at %f from its middle', (x) => {
    const sine = Math.cosh((Math.PI * WIDTH) / 2) / Math.cosh(Math.PI * x)
    const exact = ellipticF(Math.asin(sine), k) / whole
    expect(Math.abs(potential(x, 0.5) - exact)).toBeLessThan(CLAIM)
    expect(Math.abs(potential(0 - x, 0.5) - exact)).toBeLessThan(CLAIM)
  })

  it('is one volt on the conductor, the axis included, and none on the planes', () => {
    for (const x of [0, 0.1, 0.25, 0.39]) expect(Math.abs(potential(x, 0.5) - 1)).toBeLessThan(CLAIM)
    for (const x of [0, 0.3, 0.7, 3]) {
      expect(Math.abs(potential(x, 0))).toBeLessThan(CLAIM)
      expect(Math.abs(potential(x, 1))).toBeLessThan(CLAIM)
    }
  })

  it('is finite at the very end of a strip, and misses the volt there by the root of the finest panel', () => {
    const misses = [2, 4, 6, 8].map((levels) =>
      Math.abs(solved(strip, 'even', levels).potential(WIDTH / 2, 0.5) - 1),
    )
    const factors = misses.slice(1).map((miss, index) => Number(misses[index]) / miss)
    // Panels shrink by 5² in two levels; the potential leaves an edge as r^(1/2).
    expect(factors).toEqual(factors.map((): unknown => expect.closeTo(5, 0)))
  })

  it('sends the flux of the charge into the planes: Gauss’s law with the capacitance', () => {
    // ε0 ∫ ∂V/∂y over the lower plane, four-point one-sided difference; both planes take half each.
    const [step, h] = [0.005, 0.01]
    let flux = 0
    for (let x = -6 + step / 2; x < 6; x += step) {
      const [a, b, c] = [potential(x, h), potential(x, 2 * h), potential(x, 3 * h)]
      flux += (step * (18 * a - 9 * b + 2 * c)) / (6 * h)
    }
    expect((2 * flux * ELECTRIC_CONSTANT) / capacitance).toBeCloseTo(1, 4)
  })

  it('is piecewise straight between wide plates with sheets in series', () => {
    const plates: FieldProblem = {
      walls: [
        wall([3, 0.1, 0, 0.1], 0, [true, false], 2, 2),
        wall([0, 0.05, 12, 0.05], null, [false, false], 2, 4),
      ],
      conductors: 1,
      lid: 0.2,
      symmetric: true,
    }
    const { potential: between } = solved(plates, 'even')
    // Drops go as thickness over permittivity: 0.05/4 and 0.05/2 below, all of the upper sheet above.
    const exact = (y: number): number =>
      y < 0.05 ? (y / 0.05) * (1 / 3) : y < 0.1 ? 1 / 3 + ((y - 0.05) / 0.05) * (2 / 3) : (0.2 - y) / 0.1
    for (const y of [0.01, 0.03, 0.05, 0.06, 0.08, 0.1, 0.13, 0.17, 0.199]) {
      for (const x of [0, 0.37]) expect(Math.abs(between(x, y) - exact(y))).toBeLessThan(CLAIM)
    }
  })

  it('is one volt throughout the inside of a closed conductor, whatever the dielectrics', () => {
    for (const parity of ['even', 'odd'] as const) {
      const { potential: around } = solved(bars, parity)
      for (const [x, y] of [
        [0.2, 0.5],
        [0.5, 0.45],
        [0.35, 0.6],
        [0.35, 0.5],
        [0.22, 0.42],
      ] as const) {
        expect(Math.abs(around(x, y) - 1)).toBeLessThan(CLAIM)
      }
    }
  })

  it('is opposite on the mirrored side in the odd mode, alike in the even one', () => {
    for (const problem of [pair, bars]) {
      const [odd, even] = [solved(problem, 'odd').potential, solved(problem, 'even').potential]
      fc.assert(
        fc.property(
          fc.double({ min: 0, max: 1, noNaN: true }),
          fc.double({ min: 0, max: 1, noNaN: true }),
          (x, y) => {
            expect(odd(0 - x, y) + odd(x, y)).toBeCloseTo(0, 12)
            expect(even(0 - x, y) - even(x, y)).toBeCloseTo(0, 12)
            expect(Math.abs(odd(0, y))).toBeLessThan(1e-12)
          },
        ),
        { numRuns: 60, seed: 7 },
      )
    }
  })

  it('is steady where panels turn from exact to line charges', () => {
    // Second differences of a smooth function over 1e-3 stay small; a jump of the claim would stand out.
    const values = Array.from({ length: 400 }, (_, index) => potential(0.05 + index * 1e-3, 0.3))
    const bends = values
      .slice(2)
      .map((value, index) => value - 2 * Number(values[index + 1]) + Number(values[index]))
    expect(Math.max(...bends.map(Math.abs))).toBeLessThan(2 * CLAIM)
  })

  it('asks for a voltage for each conductor', () => {
    const solution = solveProblem(assemble(strip, meshProblem(strip, { levels: 1, order: 3 })), 'even', false)
    expect(() => potentialOf(strip, 'even', solution, [1, -1])).toThrow(RangeError)
  })
})
