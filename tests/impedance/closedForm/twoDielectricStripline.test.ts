import { describe, expect, it } from 'vitest'
import { assertTwoDielectrics } from '../../../src/impedance/closedForm/twoDielectricStripline.ts'

const LINE = { width: 1e-4, thickness: 2e-5, below: 1e-4, above: 2e-4 }

describe('assertTwoDielectrics', () => {
  it('takes vacuum on either side', () => {
    expect(() => {
      assertTwoDielectrics({ ...LINE, permittivityBelow: 1, permittivityAbove: 1 })
    }).not.toThrow()
  })

  it.each([
    [0.999, 4],
    [4, 0.999],
    [NaN, 4],
  ])('refuses permittivities %s and %s', (permittivityBelow, permittivityAbove) => {
    expect(() => {
      assertTwoDielectrics({ ...LINE, permittivityBelow, permittivityAbove })
    }).toThrow(/permittivities >= 1/)
  })
})
