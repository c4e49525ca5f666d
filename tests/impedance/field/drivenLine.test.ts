import { describe, expect, it } from 'vitest'
import { drivenLine } from '../../../src/impedance/field/drivenLine.ts'
import { fieldModes } from '../../../src/impedance/field/fieldLine.ts'
import { lineMatrices } from '../../../src/impedance/field/lineMatrices.ts'
import { type RowTrace, traceRowProblem } from '../../../src/impedance/field/traceRow.ts'
import type { DielectricSheet } from '../../../src/section/crossSection.ts'
import { SPEED_OF_LIGHT } from '../../../src/units/constants.ts'
import { lineSection } from '../../helpers/lineSection.ts'

const relative = ({ permittivity }: Pick<DielectricSheet, 'permittivity'>): number => permittivity.relative
const REFINEMENT = { levels: 1, order: 4 }
const um = 1e-6
const section = lineSection({
  width: 100 * um,
  topWidth: 84 * um,
  thickness: 35 * um,
  below: [[100 * um, 4.2]],
})
const row = (count: number, guards: readonly number[] = []): RowTrace[] =>
  Array.from({ length: count }, (_, index) => ({
    middle: index * 190 * um,
    width: 100 * um,
    grounded: guards.includes(index),
  }))
const matricesOf = (traces: RowTrace[]): ReturnType<typeof lineMatrices> =>
  lineMatrices(traceRowProblem(section, traces, relative), REFINEMENT)

describe('drivenLine', () => {
  const three = matricesOf(row(3))

  it('is the odd and the even mode of a pair driven against and in phase', () => {
    const pair = matricesOf(row(2))
    const { modes } = fieldModes({ ...section, arrangement: 'edge pair', gap: 90 * um }, relative, REFINEMENT)
    if (modes.kind !== 'pair') throw new RangeError('a pair has two modes')
    expect(drivenLine(pair, [1, -1], 0).impedance / modes.odd.impedance).toBeCloseTo(1, 4)
    expect(drivenLine(pair, [1, 1], 1).impedance / modes.even.impedance).toBeCloseTo(1, 4)
    expect(drivenLine(pair, [1, -1], 0).effectivePermittivity / modes.odd.effectivePermittivity).toBeCloseTo(
      1,
      3,
    )
  })

  it('is the line that is solved with its neighbours as grounded traces', () => {
    const guarded = matricesOf(row(3, [0, 2]))
    const alone = drivenLine(guarded, [1], 0)
    const struck = drivenLine(three, ['grounded', 1, 'grounded'], 1)
    expect(struck.impedance / alone.impedance).toBeCloseTo(1, 6)
    expect(struck.effectivePermittivity / alone.effectivePermittivity).toBeCloseTo(1, 6)
  })

  it('orders the middle line: against its neighbours, grounded, quiet, and with them', () => {
    const ohms = [
      [-1, 1, -1] as const,
      ['grounded', 1, 'grounded'] as const,
      [0, 1, 0] as const,
      [1, 1, 1] as const,
    ].map((pattern) => drivenLine(three, pattern, 1).impedance)
    expect(ohms).toEqual([...ohms].sort((first, second) => first - second))
    expect(new Set(ohms).size).toBe(4)
  })

  it('of a quiet neighbourhood takes the diagonal entries as they are', () => {
    const quiet = drivenLine(three, [0, 1, 0], 1)
    expect(quiet.capacitance).toBe(three.capacitance[1]?.[1])
    expect(quiet.inductance).toBe(three.inductance[1]?.[1])
  })

  it('says the same at any amplitude, and consistently: Z² = L / C, permittivity = L C c²', () => {
    const line = drivenLine(three, [0.5, -0.5, 0], 0)
    const doubled = drivenLine(three, [1, -1, 0], 0)
    expect(line.impedance).toBeCloseTo(doubled.impedance, 9)
    expect(line.impedance ** 2 / (line.inductance / line.capacitance)).toBeCloseTo(1, 12)
    expect(
      line.effectivePermittivity / (line.inductance * line.capacitance * SPEED_OF_LIGHT ** 2),
    ).toBeCloseTo(1, 12)
  })

  it('refuses patterns that do not fit', () => {
    expect(() => drivenLine(three, [1, 1], 0)).toThrow('3 conductors need as many drives, got 2')
    expect(() => drivenLine(three, [0, 1, 0], 0)).toThrow('conductor 0 must be driven')
    expect(() => drivenLine(three, ['grounded', 1, 0], 0)).toThrow(RangeError)
    expect(() => drivenLine(three, [NaN, 1, 0], 1)).toThrow(RangeError)
    expect(() => drivenLine(three, [1, 1, 0], 5)).toThrow(RangeError)
  })
})
