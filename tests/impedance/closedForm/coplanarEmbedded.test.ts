import { evaluate } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { coplanarEmbedded, LIMITS } from '../../../src/impedance/closedForm/coplanarEmbedded.ts'
import { sideCapacitances } from '../../../src/impedance/closedForm/coplanarSideWalls.ts'
import { withSideGrounds } from '../../../src/impedance/closedForm/coplanarSides.ts'
import { microstripFlatCoverFilling } from '../../../src/impedance/closedForm/microstripFlatCoverFilling.ts'
import { microstrip } from '../../helpers/lineShapes.ts'

const line = {
  ...microstrip(100, 150, 35, 4),
  gap: 80e-6,
  covers: [
    { thickness: 30e-6, relativePermittivity: 3.6 },
    { thickness: 50e-6, relativePermittivity: 4.2 },
  ],
}

describe('coplanarEmbedded', () => {
  it('is nearly a buried line under an endless cover of the same material', () => {
    const covers = [{ thickness: 1, relativePermittivity: 4 }]
    expect(coplanarEmbedded({ ...line, covers }).effectivePermittivity).toBeCloseTo(4, 1)
  })

  it('does not care how a sheet is divided', () => {
    const whole = coplanarEmbedded({ ...line, covers: [{ thickness: 80e-6, relativePermittivity: 4 }] })
    const half = { thickness: 40e-6, relativePermittivity: 4 }
    expect(coplanarEmbedded({ ...line, covers: [half, half] }).impedance).toBeCloseTo(whole.impedance, 10)
  })

  // The half space above by an independent evaluation of the expression in the doc block.
  it('fills as it describes', () => {
    const above = evaluate(
      '1 + 2.6 * (1 - exp(-2.6 * 30 / sqrt(8000))) + 3.2 * (exp(-2.6 * 30 / sqrt(8000)) - exp(-2.6 * 80 / sqrt(8000)))',
    ) as number
    const expected = withSideGrounds(sideCapacitances(line, above, 3.6), microstripFlatCoverFilling(line))
    expect(coplanarEmbedded(line).impedance).toBeCloseTo(expected.impedance, 10)
  })

  it('refuses a missing gap or cover, and has a box', () => {
    expect(() => coplanarEmbedded({ ...line, gap: 0 })).toThrow(RangeError)
    expect(() => coplanarEmbedded({ ...line, covers: [] })).toThrow(RangeError)
    expect(LIMITS.map(({ quantity }) => quantity)).toContain('cover/height')
  })
})
