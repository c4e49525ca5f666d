import { eigs, multiply } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { assemble } from '../../../src/impedance/field/assemble.ts'
import { fieldModes } from '../../../src/impedance/field/fieldLine.ts'
import { gaussLegendre } from '../../../src/impedance/field/gaussLegendre.ts'
import { Influence } from '../../../src/impedance/field/influence.ts'
import { lineMatrices, type Matrix } from '../../../src/impedance/field/lineMatrices.ts'
import { meshProblem } from '../../../src/impedance/field/panels.ts'
import { type FieldSolution, solveProblem } from '../../../src/impedance/field/solveProblem.ts'
import { type RowTrace, traceRowProblem } from '../../../src/impedance/field/traceRow.ts'
import type { FieldProblem, Wall } from '../../../src/impedance/field/wall.ts'
import type { DielectricSheet } from '../../../src/section/crossSection.ts'
import { ELECTRIC_CONSTANT, SPEED_OF_LIGHT } from '../../../src/units/constants.ts'
import { lineSection } from '../../helpers/lineSection.ts'

const relative = ({ permittivity }: Pick<DielectricSheet, 'permittivity'>): number => permittivity.relative
const REFINEMENT = { levels: 1, order: 4 }
const um = 1e-6

const coated = lineSection({
  width: 90 * um,
  topWidth: 80 * um,
  thickness: 30 * um,
  below: [
    [40 * um, 3.4],
    [35 * um, 4.3],
  ],
  mask: { overLaminate: 20 * um, overTrace: 15 * um, permittivity: 3.8 },
})
const buried = lineSection({
  width: 90 * um,
  thickness: 15 * um,
  below: [[80 * um, 3.6]],
  above: [[110 * um, 3.6]],
  twoPlanes: true,
})
const at = (middle: number, width = 90): RowTrace => ({
  middle: middle * um,
  width: width * um,
  grounded: false,
})
const three = [at(-190), at(0, 75), at(160, 110)]

function entry(matrix: Matrix<number>, row: number, column: number): number {
  return Number(matrix[row]?.[column])
}

describe('lineMatrices of three unlike traces under mask', () => {
  const problem = traceRowProblem(coated, three, relative)
  const { capacitance, inAir, inductance } = lineMatrices(problem, REFINEMENT)

  it('come from charges that are reciprocal before they are made so', () => {
    const { capacitances } = solveProblem(assemble(problem, meshProblem(problem, REFINEMENT)), 'whole', false)
    const pairs = [
      [0, 1],
      [0, 2],
      [1, 2],
    ] as const
    const apart = pairs.map(([i, j]) => entry(capacitances, i, j) - entry(capacitances, j, i))
    expect(Math.max(...apart.map(Math.abs)) / entry(capacitance, 0, 0)).toBeLessThan(1e-4)
  })

  it.each([
    ['filled', capacitance],
    ['in air', inAir],
  ])('have positive capacitances to ground and between traces, %s', (_, matrix) => {
    const between = matrix.flatMap((row, i) => row.filter((__, j) => j !== i))
    const toGround = matrix.map((row) => row.reduce((sum, each) => sum + each, 0))
    expect(Math.max(...between)).toBeLessThan(0)
    expect(Math.min(...toGround)).toBeGreaterThan(0)
  })

  it('let every mode travel slower than light in vacuum and faster than in the densest dielectric', () => {
    const slowness = multiply(
      inductance.map((row) => [...row]),
      capacitance.map((row) => row.map((each) => each * SPEED_OF_LIGHT ** 2)),
    )
    const { values } = eigs(slowness)
    const permittivities = (values as number[]).map(Number)
    expect(permittivities).toHaveLength(3)
    expect(Math.min(...permittivities)).toBeGreaterThan(1)
    expect(Math.max(...permittivities)).toBeLessThan(4.3)
  })

  it('induce more flux in a trace of its own than in any other, and always of one sign', () => {
    inductance.forEach((row, i) => {
      row.forEach((value, j) => {
        expect(value).toBeGreaterThan(0)
        expect(value).toBeLessThanOrEqual(entry(inductance, i, i) * (i === j ? 1 : 0.9))
      })
    })
  })

  it('of one trace between two that are grounded all along are its own entries, by charge and in air', () => {
    const [first, second, third] = three as [RowTrace, RowTrace, RowTrace]
    const guards = [{ ...first, grounded: true }, second, { ...third, grounded: true }]
    const alone = lineMatrices(traceRowProblem(coated, guards, relative), REFINEMENT)
    expect(alone.capacitance).toHaveLength(1)
    expect(entry(alone.capacitance, 0, 0) / entry(capacitance, 1, 1)).toBeCloseTo(1, 6)
    expect(entry(alone.inAir, 0, 0) / entry(inAir, 1, 1)).toBeCloseTo(1, 6)
    // L = µ0 ε0 / C: the currents in what is grounded keep its flux away.
    const single = 1 / (SPEED_OF_LIGHT ** 2 * entry(inAir, 1, 1))
    expect(entry(alone.inductance, 0, 0) / single).toBeCloseTo(1, 6)
    expect(single).toBeLessThan(entry(inductance, 1, 1))
  })

  it('do not depend on the order of the traces', () => {
    const [first, second, third] = three as [RowTrace, RowTrace, RowTrace]
    const turned = lineMatrices(traceRowProblem(coated, [third, first, second], relative), REFINEMENT)
    expect(entry(turned.capacitance, 0, 1) / entry(capacitance, 2, 0)).toBeCloseTo(1, 8)
    expect(entry(turned.capacitance, 2, 2) / entry(capacitance, 1, 1)).toBeCloseTo(1, 8)
  })
})

describe('lineMatrices of two traces', () => {
  it('are the even and the odd mode of the same pair about its axis', () => {
    const { capacitance, inductance } = lineMatrices(
      traceRowProblem(coated, [at(-100), at(100)], relative),
      REFINEMENT,
    )
    const { modes } = fieldModes({ ...coated, arrangement: 'edge pair', gap: 110 * um }, relative, REFINEMENT)
    if (modes.kind !== 'pair') throw new RangeError('a pair has two modes')
    const mode = (sign: 1 | -1): number =>
      Math.sqrt(
        (entry(inductance, 0, 0) + sign * entry(inductance, 0, 1)) /
          (entry(capacitance, 0, 0) + sign * entry(capacitance, 0, 1)),
      )
    // The same picture, meshed about its axis and as a whole.
    expect(mode(1) / modes.even.impedance).toBeCloseTo(1, 4)
    expect(mode(-1) / modes.odd.impedance).toBeCloseTo(1, 4)
  })

  it('in one dielectric travel as one: L C is its permittivity over c² in every entry', () => {
    const { capacitance, inductance } = lineMatrices(traceRowProblem(buried, three, relative), REFINEMENT)
    const product = multiply(
      inductance.map((row) => [...row]),
      capacitance.map((row) => row.map((each) => each * SPEED_OF_LIGHT ** 2)),
    )
    product.forEach((row, i) => {
      row.forEach((value, j) => {
        expect(value).toBeCloseTo(i === j ? 3.6 : 0, 6)
      })
    })
  })

  it('far apart are lines of their own', () => {
    const { capacitance } = lineMatrices(traceRowProblem(buried, [at(-600), at(600)], relative), REFINEMENT)
    const { modes } = fieldModes(buried, relative, REFINEMENT)
    if (modes.kind !== 'single') throw new RangeError('a single line has one mode')
    const alone = Math.sqrt(modes.line.effectivePermittivity) / (SPEED_OF_LIGHT * modes.line.impedance)
    expect(entry(capacitance, 0, 0) / alone).toBeCloseTo(1, 4)
    expect(Math.abs(entry(capacitance, 0, 1)) / alone).toBeLessThan(1e-5)
  })
})

/** Density of energy 1/2 ε E², with E the field of all charges, over a rectangle by Gauss points. */
function energy(problem: FieldProblem, solution: FieldSolution, permittivity: number): number {
  const order = solution.unknowns / solution.panels.length
  const influence = new Influence(order, problem.lid)
  const density = solution.densities[0] ?? []
  const component = (x: number, y: number, normal: { x: number; y: number }): number => {
    const row = new Float64Array(density.length)
    solution.panels.forEach((panel, index) => {
      influence.addField(row, index * order, panel, { x, y }, null, normal)
    })
    return row.reduce((sum, weight, index) => sum + weight * Number(density[index]), 0)
  }
  const { nodes, weights } = gaussLegendre(5)
  let sum = 0
  for (const [x0, x1, y0, y1] of cells()) {
    nodes.forEach((u, i) => {
      nodes.forEach((v, j) => {
        const x = (x0 + x1) / 2 + (u * (x1 - x0)) / 2
        const y = (y0 + y1) / 2 + (v * (y1 - y0)) / 2
        const squared = component(x, y, { x: 1, y: 0 }) ** 2 + component(x, y, { x: 0, y: 1 }) ** 2
        sum += (Number(weights[i]) * Number(weights[j]) * squared * (x1 - x0) * (y1 - y0)) / 4
      })
    })
  }
  return (permittivity * ELECTRIC_CONSTANT * sum) / 2
}

/** A trace 0.6 wide and 0.2 thick at 0.3 … 0.5 between planes 1 apart: rectangles that shrink towards its corners. */
const [HALF, LOW, HIGH] = [0.3, 0.3, 0.5]
function cells(): [number, number, number, number][] {
  const shrinking = (from: number, to: number): number[] =>
    [0, 0.01, 0.06, 0.3, 1].map((share) => from + (to - from) * share)
  const stretch = (points: number[]): [number, number][] =>
    [...points]
      .sort((a, b) => a - b)
      .flatMap((point, index, all) => {
        const next = all[index + 1]
        return next === undefined ? [] : [[point, next] as [number, number]]
      })
  const inside = stretch(shrinking(HALF, 0))
  const outside = [...stretch(shrinking(HALF, 1)), [1, 2], [2, 4]] as [number, number][]
  const above = stretch(shrinking(HIGH, 1))
  const beside = [...stretch(shrinking(LOW, 0.4)), ...stretch(shrinking(HIGH, 0.4))]
  const below = stretch(shrinking(LOW, 0))
  const grid = (across: [number, number][], up: [number, number][]): [number, number, number, number][] =>
    across.flatMap(([x0, x1]) => up.map(([y0, y1]): [number, number, number, number] => [x0, x1, y0, y1]))
  const half = [...grid(inside, [...above, ...below]), ...grid(outside, [...above, ...beside, ...below])]
  return half
}

describe('the energy of a solved field', () => {
  it('is the same from the charge at one volt and from the square of the field over the cross-section', () => {
    const corners = [
      [-HALF, LOW],
      [-HALF, HIGH],
      [HALF, HIGH],
      [HALF, LOW],
    ] as const
    const walls = corners.map(([x, y], index): Wall => {
      const [toX, toY] = corners[(index + 1) % 4] ?? [0, 0]
      return {
        from: { x, y },
        to: { x: toX, y: toY },
        conductor: 0,
        left: 3.6,
        right: 3.6,
        cornerAtFrom: true,
        cornerAtTo: true,
      }
    })
    const problem: FieldProblem = { walls, conductors: 1, lid: 1, symmetric: false }
    const solution = solveProblem(assemble(problem, meshProblem(problem, REFINEMENT)), 'whole', false)
    const fromCharge = Number(solution.capacitances[0]?.[0]) / 2
    // The left half holds as much as the right one; charges are counted over 2π ε0, fields accordingly.
    expect((2 * energy(problem, solution, 3.6)) / fromCharge).toBeCloseTo(1, 3)
  })
})
