import { describe, expect, it } from 'vitest'
import { type Binding, bindFormula } from '../../../src/impedance/formulas/bindFormula.ts'
import { lineSection, TEST_FREQUENCY } from '../../helpers/lineSection.ts'

const section = lineSection({ width: 1e-4, thickness: 1e-5, below: [[1e-4, 4]] })
const modes = { kind: 'single', line: { impedance: 50, effectivePermittivity: 3 } } as const
const binding: Binding = {
  id: 'made-up',
  title: 'Made up for this test',
  source: 'nobody',
  ownFit: false,
  limits: [{ quantity: 'w/h', min: 2, max: 4 }],
  regions: [{ limits: [] }],
  applies: (candidate) => candidate.structure === 'microstrip',
  solve: () => ({ modes, values: { 'w/h': 1 }, added: [{ error: 0.01, cause: 'plus more' }] }),
}
const formula = bindFormula(binding, {
  plain: [{ error: 0.02, basis: 'thin air' }],
  fine: [{ error: 0.04, basis: 'thick air' }],
  wide: [{ error: 0.2, basis: 'far away' }],
})

describe('bindFormula', () => {
  it('gives modes, band, basis and the published limits that are broken', () => {
    expect(formula.estimate(section, TEST_FREQUENCY)).toEqual({
      method: {
        kind: 'closed form',
        id: 'made-up',
        title: 'Made up for this test',
        source: 'nobody',
        ownFit: false,
        limits: [{ quantity: 'w/h', min: 2, max: 4 }],
      },
      modes,
      claimedError: 0.03,
      errorBasis: 'thin air; plus more',
      violations: [{ quantity: 'w/h', min: 2, max: 4, value: 1 }],
    })
  })

  it('claims what was measured in the wider range where a line is no fine one', () => {
    const broad = lineSection({ width: 1e-3, thickness: 1e-5, below: [[1e-4, 4]] })
    expect(formula.estimate(broad, TEST_FREQUENCY).claimedError).toBeCloseTo(0.21, 12)
    expect(formula.estimate(broad, TEST_FREQUENCY).errorBasis).toContain('far away')
  })

  it('gives the modes alone, and the smallest error that it ever claims', () => {
    expect(formula.modes(section, TEST_FREQUENCY)).toEqual(modes)
    expect(formula.leastClaim).toBe(0.02)
  })

  it('says where in its regions a section lies and what comes on top, for measuring bands', () => {
    expect(formula.locate(section, TEST_FREQUENCY)).toEqual({ region: 0, growth: 1, added: 0.01 })
    expect(formula.regions).toBe(1)
  })

  it('claims the whole value as its error where the table of bands does not know it', () => {
    const { claimedError, errorBasis } = bindFormula(binding).estimate(section, TEST_FREQUENCY)
    expect(claimedError).toBeCloseTo(1.01, 12)
    expect(errorBasis).toContain('not measured yet')
  })

  it('refuses a section that it does not answer for', () => {
    const stripline = lineSection({
      width: 1e-4,
      thickness: 1e-5,
      below: [[1e-4, 4]],
      above: [[1e-4, 4]],
      twoPlanes: true,
    })
    const message = 'made-up does not answer for a single stripline'
    expect(() => formula.estimate(stripline, TEST_FREQUENCY)).toThrow(message)
    expect(() => formula.modes(stripline, TEST_FREQUENCY)).toThrow(message)
  })
})
