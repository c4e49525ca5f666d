import { describe, expect, it } from 'vitest'
import { LIMITS, striplineExact } from '../../../src/impedance/closedForm/striplineExact.ts'
import { FREE_SPACE_IMPEDANCE } from '../../../src/units/constants.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'

const exact = (width: number, relativePermittivity = 1): number =>
  striplineExact({ width, spacing: 1, relativePermittivity })

describe('striplineExact', () => {
  it('is η0/4 where sech(πw/2b) = 1/√2', () => {
    expect(exact((2 / Math.PI) * Math.acosh(Math.SQRT2))).toBeCloseTo(FREE_SPACE_IMPEDANCE / 4, 11)
  })

  // Independent implementation of the same equations.
  it('has the check values', () => {
    expect(
      missedRows([
        within(1e-9, 'w/b 0.2 in air', exact(0.2), 153.029272652),
        within(1e-9, 'w/b 1 in permittivity 4', exact(1, 4), 32.676812555),
      ]),
    ).toBe('')
  })

  // A strip of width w is a wire of diameter w/2: η0/2π · ln(8b/πw).
  it('tends to the thin wire midway between planes as the strip narrows', () => {
    const narrow = (FREE_SPACE_IMPEDANCE / (2 * Math.PI)) * Math.log(8 / (Math.PI * 1e-6))
    expect(exact(1e-6) / narrow).toBeCloseTo(1, 11)
  })

  // The fringing capacitance of each edge of a wide thin strip is 2 ln 2/π · ε on either side (Cohn 1954).
  it('tends to two plate capacitors with exact fringing as the strip widens', () => {
    const wide = FREE_SPACE_IMPEDANCE / (4 * (12 + (2 * Math.LN2) / Math.PI))
    expect(exact(12) / wide).toBeCloseTo(1, 12)
  })

  it('passes without a step to the form for very wide strips', () => {
    const seam = (2 * 40) / Math.PI
    expect(exact(seam * (1 - 1e-12)) / exact(seam * (1 + 1e-12))).toBeCloseTo(1, 11)
    expect(exact(1e4)).toBeCloseTo(FREE_SPACE_IMPEDANCE / (4 * (1e4 + (2 * Math.LN2) / Math.PI)), 12)
  })

  it('is exact for no thickness alone', () => {
    expect(LIMITS).toEqual([{ quantity: 'thickness/spacing', min: 0, max: 0 }])
  })

  it.each([0, -1, NaN])('refuses a width of %s', (width) => {
    expect(() => exact(width)).toThrow(RangeError)
  })
})
