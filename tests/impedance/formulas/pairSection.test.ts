import { describe, expect, it } from 'vitest'
import { equivalentGaps, gapValues } from '../../../src/impedance/formulas/pairSection.ts'
import { lineSection } from '../../helpers/lineSection.ts'

const SECTION = lineSection({
  ...{ width: 1e-4, topWidth: 8e-5, thickness: 3e-5, gap: 9e-5, coplanarGap: 2e-4 },
  below: [[1e-4, 4]],
})

describe('the gaps of an etched pair', () => {
  it('keep the pitch: the mean width has its gap at half height', () => {
    const { gap, coplanarGap } = equivalentGaps(SECTION, 9e-5)
    expect(gap).toBeCloseTo(9e-5 + (1e-4 - 8e-5) / 2, 15)
    expect(gap + 9e-5).toBeCloseTo(1e-4 + 9e-5, 15)
    expect(coplanarGap).toBeCloseTo(2.1e-4, 15)
  })

  it('are the given ones with the width of the foot, and refuse a trace without partner', () => {
    expect(equivalentGaps({ ...SECTION, coplanarGap: null }, 1e-4)).toEqual({ gap: 9e-5, coplanarGap: null })
    expect(() => equivalentGaps({ ...SECTION, gap: null }, 1e-4)).toThrow(/needs a gap/)
  })

  it('are stated as ratios, those to the ground only where there is one', () => {
    expect(gapValues({ gap: 2, coplanarGap: null }, 4, 1, 'height')).toEqual({
      'gap/height': 0.5,
      'thickness/gap': 0.5,
    })
    expect(gapValues({ gap: 2, coplanarGap: 8 }, 4, 1, 'near distance')).toEqual({
      'gap/near distance': 0.5,
      'thickness/gap': 0.5,
      'coplanar gap/near distance': 2,
      'thickness/coplanar gap': 0.125,
    })
  })
})
