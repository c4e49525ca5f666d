import { describe, expect, it } from 'vitest'
import { regimeOf } from '../../../src/impedance/formulas/regimes.ts'
import { lineSection, type SectionShape, TEST_FREQUENCY } from '../../helpers/lineSection.ts'

const plain: SectionShape = { width: 80e-6, thickness: 18e-6, below: [[100e-6, 3.7]] }
const between: SectionShape = { ...plain, above: [[110e-6, 3.6]], twoPlanes: true }

describe('the regime of a section', () => {
  it.each<[string, SectionShape, string]>([
    ['a fine trace on one sheet', plain, 'plain'],
    ['one between two nearly equal dielectrics', between, 'plain'],
    ['one between unlike dielectrics', { ...between, above: [[110e-6, 3]] }, 'fine'],
    [
      'one over two sheets',
      {
        ...plain,
        below: [
          [50e-6, 3.7],
          [50e-6, 3.7],
        ],
      },
      'fine',
    ],
    ['copper nearly as thick as the trace is wide', { ...plain, thickness: 55e-6 }, 'fine'],
    ['a wide trace', { ...plain, width: 0.5e-3 }, 'wide'],
    ['the widest fine trace, a last digit over', { ...plain, width: 400e-6 * (1 + 1e-12) }, 'plain'],
    ['foil too thin', { ...plain, thickness: 5e-6 }, 'wide'],
    ['a high sheet', { ...plain, below: [[0.6e-3, 3.7]] }, 'wide'],
    ['a radio laminate', { ...plain, below: [[100e-6, 2.2]] }, 'wide'],
    ['a narrow gap', { ...plain, gap: 30e-6 }, 'wide'],
    ['ground far beside', { ...plain, coplanarGap: 0.5e-3 }, 'wide'],
  ])('of %s', (_, shape, regime) => {
    expect(regimeOf(lineSection(shape), TEST_FREQUENCY)).toBe(regime)
  })
})
