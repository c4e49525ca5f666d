import { describe, expect, it } from 'vitest'
import { type EnergyShare, energyShares } from '../../../src/impedance/field/energyShares.ts'
import { fieldModes } from '../../../src/impedance/field/fieldLine.ts'
import type { CrossSection, DielectricSheet } from '../../../src/section/crossSection.ts'
import { lineSection, sheetOf } from '../../helpers/lineSection.ts'

const relative = ({ permittivity }: Pick<DielectricSheet, 'permittivity'>): number => permittivity.relative
const REFINEMENT = { levels: 1, order: 4 }
const um = 1e-6
const mask = { overLaminate: 20 * um, overTrace: 13 * um, permittivity: 3.5 }
const trace = { width: 100 * um, topWidth: 88 * um, thickness: 20 * um }
const SHEETS = { below: [[40 * um, 3.2] as const, [50 * um, 4.4] as const] }
const buried = { ...trace, ...SHEETS, above: [[90 * um, 3.8] as const], twoPlanes: true }

const sharesOf = (section: CrossSection): EnergyShare[] => energyShares(section, relative, REFINEMENT)
const sum = (shares: readonly EnergyShare[], mode: 'line' | 'even' | 'odd'): number =>
  shares.reduce((total, each) => total + Number(each.shares[mode]), 0)

describe('energyShares', () => {
  it('are all of the energy where there is no air', () => {
    expect(sum(sharesOf(lineSection(buried)), 'line')).toBeCloseTo(1, 6)
    const pair = sharesOf(lineSection({ ...buried, gap: 80 * um }))
    expect(sum(pair, 'odd')).toBeCloseTo(1, 6)
    expect(sum(pair, 'even')).toBeCloseTo(1, 6)
    const broadside = sharesOf({
      ...lineSection(buried),
      arrangement: 'broadside pair',
      broadside: { layer: 2, sheets: [sheetOf([60 * um, 4], 0), sheetOf([40 * um, 3], 1)] },
    })
    expect(broadside).toHaveLength(5)
    expect(sum(broadside, 'odd')).toBeCloseTo(1, 6)
    expect(sum(broadside, 'even')).toBeCloseTo(1, 6)
  })

  it('follow the permittivity: effective permittivity is their sum over all paths of raising it', () => {
    // ln εeff of the coated line is the integral of the shares as every ln εr grows from 0 together.
    const section = lineSection({ ...trace, ...SHEETS, mask })
    const steps = [0.04691007703, 0.23076534495, 0.5, 0.76923465505, 0.95308992297]
    const weights = [0.118463442528, 0.239314335249, 0.284444444444, 0.239314335249, 0.118463442528]
    const integral = steps.reduce((total, step, index) => {
      const shares = energyShares(section, (sheet) => relative(sheet) ** step, REFINEMENT)
      const slope = shares.reduce(
        (growth, { dielectric, shares: { line = NaN } }) => growth + line * Math.log(relative(dielectric)),
        0,
      )
      return total + Number(weights[index]) * slope
    }, 0)
    const { modes } = fieldModes(section, relative, REFINEMENT)
    const effective = modes.kind === 'single' ? modes.line.effectivePermittivity : NaN
    expect(Math.exp(integral) / effective).toBeCloseTo(1, 5)
  })

  it('leave the rest to the air over an outer layer, less of it under mask', () => {
    const bare = sum(sharesOf(lineSection({ ...trace, ...SHEETS })), 'line')
    const coated = sum(sharesOf(lineSection({ ...trace, ...SHEETS, mask })), 'line')
    expect(bare).toBeGreaterThan(0.5)
    expect(coated).toBeGreaterThan(bare)
    expect(coated).toBeLessThan(1)
  })

  it('of a wide trace are those of a plate capacitor with two sheets in series', () => {
    const wide = sharesOf(lineSection({ ...trace, width: 20_000 * um, topWidth: 20_000 * um, ...SHEETS }))
    const [upper, lower] = [40 / 3.2, 50 / 4.4]
    expect(wide[0]?.shares.line).toBeCloseTo(upper / (upper + lower), 2)
    expect(wide[1]?.shares.line).toBeCloseTo(lower / (upper + lower), 2)
  })

  it('count equal sheets one by one', () => {
    const split = sharesOf(
      lineSection({
        ...buried,
        below: [
          [40 * um, 4.4],
          [50 * um, 4.4],
        ],
      }),
    )
    const [whole] = sharesOf(lineSection({ ...buried, below: [[90 * um, 4.4]] }))
    expect(
      (Number(split[0]?.shares.line) + Number(split[1]?.shares.line)) / Number(whole?.shares.line),
    ).toBeCloseTo(1, 3)
  })
})
