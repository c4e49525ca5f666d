import { describe, expect, it } from 'vitest'
import { bindFormula } from '../../../src/impedance/formulas/bindFormula.ts'
import { lineSection, TEST_FREQUENCY } from '../../helpers/lineSection.ts'

const section = lineSection({ width: 1e-4, thickness: 1e-5, below: [[1e-4, 4]] })
const modes = { kind: 'single', line: { impedance: 50, effectivePermittivity: 3 } } as const
const formula = bindFormula({
  id: 'made-up',
  title: 'Made up for this test',
  source: 'nobody',
  ownFit: false,
  limits: [{ quantity: 'w/h', min: 2, max: 4 }],
  regions: [{ limits: [], error: 0.02, basis: 'thin air' }],
  applies: (candidate) => candidate.structure === 'microstrip',
  solve: () => ({ modes, values: { 'w/h': 1 }, added: [{ error: 0.01, cause: 'plus more' }] }),
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

  it('refuses a section that it does not answer for', () => {
    const stripline = lineSection({
      width: 1e-4,
      thickness: 1e-5,
      below: [[1e-4, 4]],
      above: [[1e-4, 4]],
      twoPlanes: true,
    })
    expect(() => formula.estimate(stripline, TEST_FREQUENCY)).toThrow(
      'made-up does not answer for a single stripline',
    )
  })
})
