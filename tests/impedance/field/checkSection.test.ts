import { describe, expect, it } from 'vitest'
import { fieldModes } from '../../../src/impedance/field/fieldLine.ts'
import { type RowTrace, traceRowProblem } from '../../../src/impedance/field/traceRow.ts'
import { lineMatrices } from '../../../src/impedance/field/lineMatrices.ts'
import type { CrossSection, DielectricSheet } from '../../../src/section/crossSection.ts'
import { type SectionShape, lineSection } from '../../helpers/lineSection.ts'

const relative = ({ permittivity }: Pick<DielectricSheet, 'permittivity'>): number => permittivity.relative
const REFINEMENT = { levels: 1, order: 4 }
const um = 1e-6
const mask = { overLaminate: 20 * um, overTrace: 15 * um, permittivity: 3.8 }
const surface: SectionShape = {
  width: 100 * um,
  topWidth: 80 * um,
  thickness: 30 * um,
  below: [[100 * um, 4]],
}
const buried: SectionShape = { ...surface, above: [[100 * um, 4]], twoPlanes: true }

const solve = (section: CrossSection): number[] => {
  const { modes } = fieldModes(section, relative, REFINEMENT)
  return modes.kind === 'single' ? [modes.line.impedance] : [modes.odd.impedance, modes.even.impedance]
}
const shape = (base: SectionShape, change: Partial<SectionShape>) => () =>
  solve(lineSection({ ...base, ...change }))

describe('fieldModes refuses at its first line', () => {
  it.each([
    ['no width', shape(surface, { width: 0 }), 'trace width must be above 0 and finite, got 0 m'],
    ['a width that is no number', shape(surface, { width: NaN }), 'got NaN m'],
    ['a width without end', shape(surface, { width: Infinity }), 'got Infinity m'],
    ['side walls that meet', shape(surface, { topWidth: -5 * um }), 'trace width at the top must be above 0'],
    ['a top wider than the foot', shape(surface, { topWidth: 120 * um }), 'wider than its foot'],
    ['no thickness', shape(surface, { thickness: 0 }), 'trace thickness must be above 0 and finite, got 0 m'],
    ['no gap', shape(surface, { gap: 0 }), 'gap of the pair must be above 0 and finite, got 0 m'],
    [
      'a negative gap: overlapping traces',
      shape(surface, { gap: -20 * um }),
      'gap of the pair must be above 0 and finite, got -0.0000',
    ],
    ['no gap to ground', shape(surface, { coplanarGap: 0 }), 'gap to coplanar ground must be above 0'],
    ['no dielectric', shape(surface, { below: [] }), 'there is no dielectric below the trace'],
    ['a lid on the trace', shape(buried, { above: [] }), 'there is no dielectric above the trace'],
    ['a sheet of no thickness', shape(surface, { below: [[0, 4]] }), 'thickness of sheet 1 below the trace'],
    [
      'a permittivity below 1',
      shape(surface, { below: [[100 * um, 0.9]] }),
      'must be at least 1 and finite, got 0.9',
    ],
    ['a permittivity without end', shape(surface, { below: [[100 * um, Infinity]] }), 'got Infinity'],
    [
      'mask of no thickness',
      shape(surface, { mask: { ...mask, overTrace: 0 } }),
      'mask over the trace must be',
    ],
    [
      'mask below copper',
      shape(surface, { mask: { ...mask, overLaminate: -1 } }),
      'mask over the laminate must be',
    ],
  ])('%s', (_, attempt, message) => {
    expect(attempt).toThrow(RangeError)
    expect(attempt).toThrow(message)
  })

  it('a pair without a gap', () => {
    expect(() => solve({ ...lineSection(surface), arrangement: 'edge pair' })).toThrow(
      'does not go with a gap of null',
    )
  })

  it.each([
    [{ levels: 1.5, order: 4 }, 'whole number from 0 to 20, got 1.5'],
    [{ levels: 1, order: 0 }, 'whole number from 1 to 12, got 0'],
  ])('a refinement that is none: %o', (refinement, message) => {
    expect(() => fieldModes(lineSection(surface), relative, refinement)).toThrow(message)
  })

  it('more unknowns than are solved, before it assembles them', () => {
    expect(() => fieldModes(lineSection({ ...surface, mask }), relative, { levels: 20, order: 12 })).toThrow(
      'more than 2400 unknowns',
    )
  })
})

describe('fieldModes answers for extreme aspects', () => {
  const mm = 1e-3
  it.each([
    [
      'a trace of 1 µm on 10 mm',
      shape(surface, { width: um, topWidth: um, thickness: um, below: [[10 * mm, 4]] }),
    ],
    [
      'a trace of 10 mm on 1 µm',
      shape(surface, { width: 10 * mm, topWidth: 10 * mm, thickness: um, below: [[um, 4]] }),
    ],
    [
      'a pair of 1 µm in 10 mm of laminate',
      shape(buried, {
        width: um,
        topWidth: um,
        thickness: um,
        gap: um,
        below: [[10 * mm, 4]],
        above: [[10 * mm, 3]],
      }),
    ],
    ['a gap of 1 µm between traces of 10 mm', shape(surface, { width: 10 * mm, topWidth: 10 * mm, gap: um })],
    [
      'mask of 1 µm over a trace of 10 mm',
      shape(surface, {
        width: 10 * mm,
        topWidth: 10 * mm,
        mask: { ...mask, overLaminate: um, overTrace: um },
      }),
    ],
    ['a lid 1 µm above a trace of 1 mm', shape(buried, { width: mm, topWidth: mm, above: [[um, 4]] })],
    [
      'ground 1 µm beside, sheets of 1 µm and 10 mm',
      shape(surface, {
        coplanarGap: um,
        below: [
          [um, 3],
          [10 * mm, 5],
        ],
      }),
    ],
  ])('%s', (_, attempt) => {
    for (const ohms of attempt()) {
      expect(ohms).toBeGreaterThan(0.001)
      expect(ohms).toBeLessThan(1000)
    }
  })

  it('with the impedance of parallel plates where the trace is ten thousand times as wide as high', () => {
    // Plates: η0 / √εr times distance over width; fringes are a thousandth.
    const [ohms] = shape(surface, { width: 10 * mm, topWidth: 10 * mm, thickness: um, below: [[um, 4]] })()
    expect(Number(ohms) / ((376.730313668 * 1e-4) / 2)).toBeCloseTo(1, 2)
  })
})

describe('a trace far wider than its planes are apart', () => {
  const inverse = (width: number): number => {
    const [ohms] = shape(buried, {
      width,
      topWidth: width,
      thickness: 20 * um,
      below: [[10 * um, 1]],
      above: [[10 * um, 1]],
    })()
    return 376.730313668 / Number(ohms)
  }

  // Two plates side by side, 10 µm away: capacitance over ε0 grows by 2 per 10 µm of width, and the fringes stay.
  it.each([0.4, 1, 3, 10])('gains by width what plates gain, and keeps its fringes: %f mm', (millimetres) => {
    const width = millimetres * 1e-3
    const plates = (2 * width) / (10 * um)
    const fringes = inverse(0.2e-3) - 40
    expect((inverse(width) - plates) / fringes).toBeCloseTo(1, 2)
  })
})

describe('rows of traces', () => {
  const row = (...traces: [number, number][]): RowTrace[] =>
    traces.map(([middle, width]) => ({ middle: middle * um, width: width * um, grounded: false }))
  const matrices = (traces: RowTrace[]) => () =>
    lineMatrices(traceRowProblem(lineSection(surface), traces, relative), REFINEMENT)

  it.each([
    ['touch', row([0, 100], [100, 100])],
    ['overlap', row([0, 100], [60, 100])],
    ['lie on one another', row([0, 100], [0, 100])],
    ['lie inside one another', row([0, 200], [10, 60])],
  ])('that %s are refused by name and place', (_, traces) => {
    expect(matrices(traces)).toThrow(/conductor 0 and conductor 1 touch or overlap at x = .* m, y = .* m/)
  })

  it('need a signal, and widths that leave a top', () => {
    expect(matrices([])).toThrow('none of the traces carries a signal')
    expect(matrices(row([0, 15]))).toThrow('trace width at the top must be above 0')
    expect(matrices(row([NaN, 100]))).toThrow(RangeError)
  })
})
