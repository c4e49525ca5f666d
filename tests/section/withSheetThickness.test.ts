import { describe, expect, it } from 'vitest'
import type { Stackup } from '../../src/board/stackup.ts'
import { withThickness } from '../../src/dielectric/withThickness.ts'
import type { CrossSection, LineRequest } from '../../src/section/crossSection.ts'
import { deriveSection } from '../../src/section/deriveSection.ts'
import { type Side, withSheetThickness } from '../../src/section/withSheetThickness.ts'
import { copper, dielectric, mask, plane, stackup } from '../helpers/stackup.ts'

const UM = 1e-6

/** Outer layers, an inner one beside an empty layer that the dielectric under it fills, and a pair face to face. */
const present = stackup(
  mask('top'),
  copper('L1'),
  dielectric('outer top', 75, 3.6, 'prepreg'),
  plane('L2'),
  dielectric('core', 100, 3.9),
  copper('L3', { bondedTo: 'above' }),
  dielectric('middle', 200, 3.7, 'prepreg'),
  copper('L4', { bondedTo: 'below' }),
  dielectric('core bottom', 100, 3.9),
  plane('L5', 'VDD'),
)

function section(stack: Stackup, layer: number, change: Partial<LineRequest> = {}): CrossSection {
  const request = { layer, width: 100 * UM, gap: null, coplanarGap: null, broadsideLayer: null, ...change }
  return deriveSection(stack, request)
}

describe('withSheetThickness', () => {
  it.each<[string, number, Partial<LineRequest>, Side, string]>([
    ['under an outer trace', 1, {}, 'below', 'outer top'],
    ['between an inner trace and its plane', 3, {}, 'below', 'core'],
    ['between an inner trace and an empty layer', 3, {}, 'above', 'middle'],
    ['above a pair face to face', 3, { broadsideLayer: 4 }, 'above', 'core'],
  ])('is the section of a stackup with another thickness %s', (_, layer, change, side, name) => {
    const before = section(present, layer, change)
    const after = withSheetThickness(before, side, 55 * UM)
    expect(after).toEqual(section(withThickness(present, name, 55 * UM), layer, change))
    expect(after).not.toEqual(before)
  })

  it('refuses a thickness that is none, and a side without dielectric', () => {
    const outer = section(present, 1)
    expect(() => withSheetThickness(outer, 'below', 0)).toThrow('must be above 0, got 0 m')
    expect(() => withSheetThickness(outer, 'above', 55 * UM)).toThrow('no dielectric')
  })
})
