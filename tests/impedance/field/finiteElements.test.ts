import { describe, expect, it } from 'vitest'
import type { ModeConstants } from '../../../src/impedance/estimate.ts'
import { fieldModes } from '../../../src/impedance/field/fieldLine.ts'
import { SPEED_OF_LIGHT } from '../../../src/units/constants.ts'
import { type Comparison, missedRows, within } from '../../helpers/compareTable.ts'
import {
  type FiniteElementCase,
  readFiniteElements,
  sectionOfCase,
} from '../../helpers/finiteElementCases.ts'

/** Set before the first comparison; the finite elements themselves are good to a hundredth of it. */
const TOLERANCE = 0.002

const MODES = ['single', 'even', 'odd'] as const
const { cases, checks } = readFiniteElements()

function compared(row: FiniteElementCase): Comparison[] {
  const section = sectionOfCase(row)
  if (section === null) throw new RangeError(`${row.name} is no cross-section`)
  const { modes } = fieldModes(section, (sheet) => sheet.permittivity.relative, { levels: 2, order: 4 })
  if (modes.kind === 'single') return comparedMode(row, 'single', modes.line)
  return [...comparedMode(row, 'even', modes.even), ...comparedMode(row, 'odd', modes.odd)]
}

function comparedMode(
  row: FiniteElementCase,
  mode: (typeof MODES)[number],
  { impedance, effectivePermittivity }: ModeConstants,
): Comparison[] {
  const [ohms, permittivity] = [row[`${mode}Impedance`], row[`${mode}EffectivePermittivity`]]
  return [
    within(TOLERANCE, `${row.name}, ${mode} impedance`, impedance, ohms ?? NaN),
    within(
      TOLERANCE,
      `${row.name}, ${mode} effective permittivity`,
      effectivePermittivity,
      permittivity ?? NaN,
    ),
  ]
}

describe('fieldModes against finite elements that bound every value from both sides', () => {
  // reference/field/finiteElements.py, from the differential equation; bounds in the table.
  it.each(cases.filter((row) => sectionOfCase(row) !== null))('meets the case: $name', (row) => {
    expect(missedRows(compared(row))).toBe('')
  })
})

describe('the finite elements', () => {
  it('enclose the exact solutions within two millionths', () => {
    expect(checks.length).toBeGreaterThan(8)
    const strays = checks.filter(
      ({ exact, upperBound, lowerBound }) =>
        !(upperBound >= exact && exact >= lowerBound && upperBound / lowerBound - 1 < 2e-6),
    )
    expect(strays).toEqual([])
  })

  it('give impedances and effective permittivities that follow from their capacitances', () => {
    const rows = cases.flatMap((row) =>
      MODES.flatMap((mode) => {
        const [filled, air] = [row[`${mode}Capacitance`], row[`${mode}CapacitanceInAir`]]
        if (filled === null || air === null) return []
        return comparedMode(row, mode, {
          impedance: 1 / (SPEED_OF_LIGHT * Math.sqrt(filled * air)),
          effectivePermittivity: filled / air,
        }).map((comparison) => ({ ...comparison, tolerance: 1e-7 * comparison.expected }))
      }),
    )
    expect(missedRows(rows)).toBe('')
  })

  it('give Maxwell matrices that are symmetric, with negative mutual entries and positive row sums', () => {
    const matrices = cases.flatMap((row) => [
      ...(row.maxwellCapacitances === null ? [] : [row.maxwellCapacitances]),
      ...(row.maxwellCapacitancesInAir === null ? [] : [row.maxwellCapacitancesInAir]),
    ])
    expect(matrices).toHaveLength(16)
    const entry = (matrix: number[][], i: number, j: number): number => Number(matrix[i]?.[j])
    const wrong = matrices.filter((matrix) =>
      matrix.some(
        (line, i) =>
          !(line.reduce((sum, value) => sum + value, 0) > 0) ||
          line.some((value, j) => (i === j ? !(value > 0) : !(value < 0))) ||
          line.some((value, j) => !(Math.abs(value / entry(matrix, j, i) - 1) < 1e-6)),
      ),
    )
    expect(wrong).toEqual([])
  })
})
