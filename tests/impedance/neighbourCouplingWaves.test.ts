import { abs, add, complex, identity, lusolve, multiply, type Complex, type Matrix } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { couplingOf, type NeighbourCoupling } from '../../src/impedance/neighbourCoupling.ts'
import type { RowConstants } from '../../src/impedance/neighbourRow.ts'

/** Two unlike lines, the disturbed one first. Their impedances differ by a tenth, their velocities by a little. */
function row(mutualCapacitance: number, mutualInductance: number): RowConstants {
  return {
    capacitance: 110e-12,
    inductance: 340e-9,
    neighbourCapacitance: 128e-12,
    neighbourInductance: 296e-9,
    mutualCapacitance,
    mutualInductance,
    withIt: 1,
    againstIt: 1,
  }
}

/** exp(jθN) of a real N by its series, with real and imaginary parts apart. */
function exponential(n: number[][], theta: number): { real: number[][]; imaginary: number[][] } {
  const size = n.length
  let term = (identity(size) as Matrix).toArray() as number[][]
  let real = term
  let imaginary = term.map((line) => line.map(() => 0))
  for (let order = 1; order < 60; order += 1) {
    const next: number[][] = multiply(term, n)
    term = next.map((line) => line.map((value) => (value * theta) / order))
    const sign = order % 4 < 2 ? 1 : -1
    const signed = term.map((line) => line.map((value) => value * sign))
    if (order % 2 === 0) real = add(real, signed)
    else imaginary = add(imaginary, signed)
  }
  return { real, imaginary }
}

interface Ends {
  readonly near: Complex
  readonly far: Complex
}

/**
 * The disturbed line's voltages for a wave of one volt in the other, exactly: the telegrapher's equations
 * V′ = −jωL I, I′ = −jωC V of both lines solved together, each ended in its own √(L/C) at both ends.
 */
function exactEnds(of: RowConstants, length: number, omega: number): Ends {
  const { mutualCapacitance: cm, mutualInductance: lm } = of
  const n = [
    [0, 0, of.inductance, lm],
    [0, 0, lm, of.neighbourInductance],
    [of.capacitance, -1 * cm, 0, 0],
    [-1 * cm, of.neighbourCapacitance, 0, 0],
  ]
  const { real, imaginary } = exponential(n, omega * length)
  const z = [
    Math.sqrt(of.inductance / of.capacitance),
    Math.sqrt(of.neighbourInductance / of.neighbourCapacitance),
  ]
  const entry = (i: number, j: number): Complex => complex(Number(real[i]?.[j]), Number(imaginary[i]?.[j]))
  // Far ends: I = V/Z. Voltages and currents at the near ends follow from the far voltages.
  const fromFar = (i: number, j: number): Complex =>
    add(entry(i, j), multiply(entry(i, j + 2), 1 / Number(z[j]))) as Complex
  const both = [0, 1].map((i) =>
    [0, 1].map((j) => add(fromFar(i, j), multiply(fromFar(i + 2, j), Number(z[i]))) as Complex),
  )
  const solved = (lusolve(both as never, [complex(0), complex(2)] as never) as unknown as Complex[][]).flat()
  const [far, other] = [solved[0] ?? complex(NaN), solved[1] ?? complex(NaN)]
  const near = add(multiply(fromFar(0, 0), far), multiply(fromFar(0, 1), other)) as Complex
  return { near, far }
}

const LENGTH = 20e-3
const angle = (coupling: NeighbourCoupling, omega: number): number => omega * coupling.delay * LENGTH
const size = (value: Complex): number => abs(value)

describe('two unlike lines, solved together at one frequency', () => {
  // Weak enough that what comes back into the disturbing line is of the order of 1e-4.
  const weak = row(1.1e-12, 4.2e-9)
  const coupling = couplingOf(weak)

  it.each([0.3, 0.9, Math.PI / 2, 2.2])(
    'send back K (1 − e^(−2jθ)) at an electrical length of %f rad',
    (theta) => {
      const omega = theta / (coupling.delay * LENGTH)
      const { near } = exactEnds(weak, LENGTH, omega)
      const expected = 2 * coupling.backward * Math.abs(Math.sin(angle(coupling, omega)))
      expect(Math.abs(size(near) / expected - 1)).toBeLessThan(2e-3)
    },
  )

  it.each([0.3, 0.9, 1.5])('send on jω times forward coefficient and length at %f rad', (theta) => {
    const omega = theta / (coupling.delay * LENGTH)
    const { far } = exactEnds(weak, LENGTH, omega)
    const expected = omega * LENGTH * Math.abs(coupling.forward)
    expect(Math.abs(size(far) / expected - 1)).toBeLessThan(0.01)
  })

  it('leave nothing at the far end where capacitive and inductive coupling balance', () => {
    const balanced = row(1.1e-12, 1.1e-12 * Math.sqrt(340e-9 / 110e-12) * Math.sqrt(296e-9 / 128e-12))
    const even = couplingOf(balanced)
    const omega = 0.9 / (even.delay * LENGTH)
    expect(Math.abs(even.forward) / even.backward / even.delay).toBeLessThan(1e-9)
    expect(size(exactEnds(balanced, LENGTH, omega).far)).toBeLessThan(1e-3 * even.backward)
  })

  it('stay within the square of the coupling where that is strong', () => {
    const strong = row(11e-12, 42e-9)
    const much = couplingOf(strong)
    const omega = Math.PI / 2 / (much.delay * LENGTH)
    const ratio = size(exactEnds(strong, LENGTH, omega).near) / (2 * much.backward)
    expect(Math.abs(ratio - 1)).toBeLessThan((2 * much.backward) ** 2)
  })
})
