import { describe, expect, it } from 'vitest'
import { striplinePairExact } from '../../src/impedance/closedForm/striplinePairExact.ts'
import { fieldModes } from '../../src/impedance/field/fieldLine.ts'
import { COUPLING_BAND, couplingOf, neighbourCoupling } from '../../src/impedance/neighbourCoupling.ts'
import { rowConstants } from '../../src/impedance/neighbourRow.ts'
import { permittivityIn } from '../../src/impedance/permittivityIn.ts'
import type { CrossSection } from '../../src/section/crossSection.ts'
import { lineSection, TEST_FREQUENCY } from '../helpers/lineSection.ts'

const um = 1e-6
const relative = permittivityIn(TEST_FREQUENCY)
const FINE = { levels: 2, order: 3 }

const thin = (width: number): CrossSection =>
  lineSection({
    width: width * um,
    thickness: 0.1 * um,
    below: [[100 * um, 3.7]],
    above: [[99.9 * um, 3.7]],
    twoPlanes: true,
  })
const buried = (change: { width?: number; gap?: number } = {}): CrossSection =>
  lineSection({
    width: (change.width ?? 80) * um,
    topWidth: ((change.width ?? 80) - 7) * um,
    thickness: 17 * um,
    below: [[100 * um, 3.7]],
    above: [[110 * um, 3.7]],
    twoPlanes: true,
    ...(change.gap === undefined ? {} : { gap: change.gap * um }),
  })
const outer = lineSection({
  width: 80 * um,
  topWidth: 66 * um,
  thickness: 40 * um,
  below: [[65 * um, 3.5]],
  mask: { overLaminate: 20 * um, overTrace: 13 * um, permittivity: 3.8 },
})

const coupling = (
  section: CrossSection,
  gap: number,
  width = 80,
): NonNullable<ReturnType<typeof neighbourCoupling>> => {
  const found = neighbourCoupling(section, TEST_FREQUENCY, { width: width * um, gap: gap * um })
  if (found === null) throw new Error('no coupling')
  return found
}

describe('the backward coefficient of two thin strips midway between planes', () => {
  it.each([
    [80, 75],
    [80, 130],
    [100, 100],
    [100, 300],
    [125, 160],
  ])('of %i µm with a gap of %i µm is that of Cohn’s conformal solution', (width, gap) => {
    const { even, odd } = striplinePairExact({
      width: width * um,
      gap: gap * um,
      spacing: 200 * um,
      relativePermittivity: 3.7,
    })
    const exact = (even - odd) / (even + odd) / 2
    const neighbour = { width: width * um, gap: gap * um }
    const fine = couplingOf(rowConstants(thin(width), relative, neighbour, FINE))
    // The strips are 0.1 µm thick: a thousandth of a gap.
    expect(Math.abs(fine.backward / exact - 1)).toBeLessThan(0.005)
    expect(Math.abs(coupling(thin(width), gap, width).backward / exact - 1)).toBeLessThan(COUPLING_BAND)
  })
})

describe('neighbourCoupling', () => {
  it('is (Cm/C + Lm/L)/4, with nothing that runs on, of equal traces in one dielectric', () => {
    const { capacitive, inductive, backward, forward, delay } = coupling(buried(), 100)
    expect(capacitive / inductive).toBeCloseTo(1, 6)
    expect(backward / ((capacitive + inductive) / 4)).toBeCloseTo(1, 6)
    expect(Math.abs(forward) / (backward * delay)).toBeLessThan(1e-6)
    expect(delay / (Math.sqrt(3.7) / 299_792_458)).toBeCloseTo(1, 6)
  })

  it('runs on with the opposite sign over one plane, where inductive coupling outweighs', () => {
    const { capacitive, inductive, forward } = coupling(outer, 90)
    expect(inductive).toBeGreaterThan(capacitive)
    expect(forward).toBeLessThan(0)
  })

  it.each([
    ['between planes', buried({ width: 91 }), 97, 107],
    ['over one plane', outer, 118, 93],
    ['of a pair between planes', buried({ width: 77, gap: 88 }), 141, 84],
  ])(
    'keeps its band against a fine solution %s, at sizes between those of the series',
    (_, section, gap, width) => {
      const neighbour = { width: width * um, gap: gap * um }
      const fine = couplingOf(rowConstants(section, relative, neighbour, { levels: 1, order: 3 }))
      const coarse = coupling(section, gap, width)
      expect(Math.abs(coarse.backward / fine.backward - 1)).toBeLessThan(COUPLING_BAND)
      expect(Math.abs(coarse.withIt / fine.withIt - 1)).toBeLessThan(0.01)
      expect(Math.abs(coarse.againstIt / fine.againstIt - 1)).toBeLessThan(0.01)
    },
  )

  it('falls with the gap without a jump where the series goes on', () => {
    const gaps = [98, 99, 99.9, 100, 100.1, 101, 158, 159.9, 160.1, 162, 250, 400]
    const values = gaps.map((gap) => coupling(buried(), gap).backward)
    expect(values).toEqual([...values].sort((a, b) => b - a))
    expect(Number(values[2]) / Number(values[4])).toBeLessThan(1.005)
    expect(Number(values[7]) / Number(values[8])).toBeLessThan(1.005)
  })

  it('is less in a pair, where both traces take it up, and more the wider the pair stands apart', () => {
    const single = coupling(buried(), 90).backward
    const close = coupling(buried({ gap: 80 }), 90).backward
    const wide = coupling(buried({ gap: 160 }), 90).backward
    expect(close).toBeLessThan(wide)
    expect(wide).toBeLessThan(single)
  })

  it('refuses sizes that are none, and broadside pairs', () => {
    expect(() => neighbourCoupling(outer, TEST_FREQUENCY, { width: 0, gap: um })).toThrow(RangeError)
    expect(() => neighbourCoupling(outer, TEST_FREQUENCY, { width: um, gap: NaN })).toThrow('got NaN m')
    expect(() =>
      neighbourCoupling({ ...buried(), arrangement: 'broadside pair' }, TEST_FREQUENCY, {
        width: um,
        gap: um,
      }),
    ).toThrow(RangeError)
  })

  it('has no answer where the walls of a row would meet', () => {
    expect(neighbourCoupling(outer, TEST_FREQUENCY, { width: 10 * um, gap: 90 * um })).toBeNull()
  })
})

describe('rowConstants', () => {
  const neighbour = { width: 120 * um, gap: 85 * um }

  it('couple either way with the same power: the coefficients differ by the impedances', () => {
    const there = rowConstants(buried(), relative, neighbour, { levels: 0, order: 3 })
    const back = rowConstants(
      buried({ width: 120 }),
      relative,
      { width: 80 * um, gap: 85 * um },
      { levels: 0, order: 3 },
    )
    const impedance = (row: typeof there): number => Math.sqrt(row.inductance / row.capacitance)
    const ratio = couplingOf(there).backward / couplingOf(back).backward
    expect(ratio / (impedance(there) / impedance(back))).toBeCloseTo(1, 4)
  })

  it('with and against an equal neighbour are the even and the odd mode of the two', () => {
    const row = rowConstants(outer, relative, { width: 80 * um, gap: 90 * um }, { levels: 1, order: 3 })
    const { modes } = fieldModes({ ...outer, arrangement: 'edge pair', gap: 90 * um }, relative, {
      levels: 1,
      order: 3,
    })
    if (modes.kind !== 'pair') throw new RangeError('a pair has two modes')
    expect(row.withIt / row.againstIt / (modes.even.impedance / modes.odd.impedance)).toBeCloseTo(1, 3)
  })

  it('have an impedance against neighbours that couple more strongly than the plane', () => {
    const high = lineSection({ width: 63 * um, thickness: 20 * um, below: [[200 * um, 4.3]], gap: 50 * um })
    const row = rowConstants(high, relative, { width: 63 * um, gap: 40 * um }, { levels: 0, order: 2 })
    expect(row.againstIt).toBeGreaterThan(0.5)
    expect(row.againstIt).toBeLessThan(1)
    expect(row.withIt).toBeGreaterThan(1)
  })

  it('of a pair with its neighbour far away are its odd mode, twice in series', () => {
    const section = buried({ gap: 90 })
    const row = rowConstants(section, relative, { width: 80 * um, gap: 500 * um }, { levels: 1, order: 3 })
    const { modes } = fieldModes(section, relative, { levels: 1, order: 3 })
    if (modes.kind !== 'pair') throw new RangeError('a pair has two modes')
    expect(Math.sqrt(row.inductance / row.capacitance) / (2 * modes.odd.impedance)).toBeCloseTo(1, 3)
  })
})
