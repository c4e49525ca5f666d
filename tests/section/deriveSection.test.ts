import { describe, expect, it } from 'vitest'
import type { LineRequest } from '../../src/section/crossSection.ts'
import { deriveSection } from '../../src/section/deriveSection.ts'
import { copper, dielectric, mask, plane, stackup } from '../helpers/stackup.ts'

/** Signal, plane, two signals, plane, signal: each place a trace can have. */
const six = stackup(
  mask('top'),
  copper('L1'),
  dielectric('outer top', 75, 3.6, 'prepreg'),
  plane('L2'),
  dielectric('core top', 100, 3.9),
  copper('L3', { bondedTo: 'above', sidewallSlope: 0.4 }),
  dielectric('middle', 200, 3.7, 'prepreg'),
  copper('L4', { bondedTo: 'below' }),
  dielectric('core bottom', 100, 3.9),
  plane('L5', 'VDD'),
  dielectric('outer bottom', 75, 3.6, 'prepreg'),
  copper('L6', { bondedTo: 'above' }),
  mask('bottom'),
)

function ask(layer: number, change: Partial<LineRequest> = {}): LineRequest {
  return { layer, width: 100e-6, gap: null, coplanarGap: null, broadsideLayer: null, ...change }
}

const names = (sheets: readonly { name: string }[]): string[] => sheets.map((sheet) => sheet.name)

describe('deriveSection', () => {
  it('sees a coated microstrip over the first plane on an outer layer', () => {
    const section = deriveSection(six, ask(1))
    expect(section).toMatchObject({
      structure: 'microstrip',
      upsideDown: false,
      planeAbove: null,
      arrangement: 'single',
    })
    expect(section.planeBelow).toEqual({ layer: 2, layerName: 'L2', net: 'GND' })
    expect(names(section.below)).toEqual(['outer top'])
    expect(section.mask?.overTrace).toBeCloseTo(20e-6, 12)
  })

  it('turns the bottom layer over, so that its plane is below', () => {
    const section = deriveSection(six, ask(6))
    expect(section).toMatchObject({ structure: 'microstrip', upsideDown: true })
    expect(section.trace.foot).toBe('below')
    expect(section.planeBelow.net).toBe('VDD')
    expect(names(section.below)).toEqual(['outer bottom'])
  })

  it('sees a stripline between the nearest planes and counts the signal layer between as empty', () => {
    const section = deriveSection(six, ask(4))
    expect(section.structure).toBe('stripline')
    expect(section.emptyLayers).toEqual(['L3'])
    expect(names(section.below)).toEqual(['core bottom'])
    expect(section.planeAbove?.layerName).toBe('L2')
  })

  it('fills the slab of an empty layer with what its body would stand in', () => {
    // L3 hangs from the core above it, so its body stands in the prepreg between L3 and L4.
    expect(names(deriveSection(six, ask(4)).above)).toEqual(['middle', 'middle', 'core top'])
    expect(deriveSection(six, ask(4)).above[1]?.thickness).toBeCloseTo(18e-6, 12)
  })

  it('keeps the distance from plane to plane, whichever layer it looks from', () => {
    const height = (layer: number): number => {
      const { below, above, trace } = deriveSection(six, ask(layer))
      return [...below, ...above].reduce((sum, sheet) => sum + sheet.thickness, trace.thickness)
    }
    expect(height(3)).toBeCloseTo(height(4), 12)
  })

  it('lays the foot on the dielectric that the foil was bonded to', () => {
    const section = deriveSection(six, ask(3))
    expect(section).toMatchObject({ upsideDown: true, trace: { foot: 'below' } })
    expect(names(section.below)).toEqual(['core top'])
    expect(section.trace.topWidth).toBeCloseTo(100e-6 - 2 * 0.4 * 18e-6, 12)
  })

  it('sees an embedded microstrip where no plane is left above an inner layer', () => {
    const open = stackup(
      mask('top'),
      copper('L1'),
      dielectric('outer', 75, 3.6, 'prepreg'),
      copper('L2', { bondedTo: 'below' }),
      dielectric('core', 100, 3.9),
      plane('L3'),
    )
    const section = deriveSection(open, ask(2))
    expect(section).toMatchObject({ structure: 'microstrip', upsideDown: false, emptyLayers: ['L1'] })
    // The empty outer layer leaves no slab behind: its copper would stand in mask and air.
    expect(names(section.above)).toEqual(['outer'])
    expect(section.mask).not.toBeNull()
  })

  it('puts a broadside pair between its planes with what lies between the two', () => {
    const section = deriveSection(six, ask(3, { broadsideLayer: 4 }))
    expect(section).toMatchObject({ arrangement: 'broadside pair', structure: 'stripline' })
    expect(names(section.broadside?.sheets ?? [])).toEqual(['middle'])
    expect(names(section.below)).toEqual(['core bottom'])
    expect(names(section.above)).toEqual(['core top'])
  })

  it.each([
    ['a layer that is not there', ask(7), 'there is no copper layer 7; the stackup has 1 to 6'],
    ['a plane', ask(2), 'layer L2 is a plane (GND)'],
    ['a width of zero', ask(1, { width: 0 }), 'trace width must be above 0'],
    ['a width that is not a number', ask(1, { width: NaN }), 'trace width must be above 0, got NaN m'],
    ['a gap of zero', ask(1, { gap: 0 }), 'gap must be above 0'],
    ['side walls that meet', ask(3, { width: 14e-6 }), 'would etch away'],
    [
      'a pair coupled both ways',
      ask(3, { gap: 1e-4, broadsideLayer: 4 }),
      'edge to edge or broadside, not both',
    ],
    ['a broadside pair through a plane', ask(1, { broadsideLayer: 6 }), 'needs a plane above'],
    ['a broadside pair on one layer', ask(3, { broadsideLayer: 3 }), 'needs two layers'],
  ])('refuses %s', (_, request, message) => {
    expect(() => deriveSection(six, request)).toThrow(message)
    expect(() => deriveSection(six, request)).toThrow(RangeError)
  })

  it('refuses a stackup in which no plane is in sight', () => {
    const bare = stackup(copper('L1'), dielectric('core', 100, 4), copper('L2'))
    expect(() => deriveSection(bare, ask(1))).toThrow('no plane above or below')
  })

  it('carries the assumptions of what it rests on, once: nothing of planes, of empty layers the thickness', () => {
    const assumed = (...paths: string[]) =>
      paths.map((path) => ({ path, quantity: 'q', value: 'v', source: 's' }))
    const doubtful = stackup(
      copper('L1', { assumed: assumed('L1.sidewall') }),
      { ...dielectric('upper', 100, 4), assumed: assumed('upper.permittivity') },
      copper('L2', { assumed: assumed('L2.sidewall', 'L2.thickness') }),
      { ...dielectric('lower', 100, 4), assumed: assumed('lower.permittivity') },
      copper('L3', { role: 'plane', assumed: assumed('L3.sidewall', 'L3.thickness') }),
      { ...dielectric('far', 100, 4), assumed: assumed('far.permittivity') },
      copper('L4', { bondedTo: 'above' }),
    )
    expect(deriveSection(doubtful, ask(1)).assumed.map((each) => each.path)).toEqual([
      'L1.sidewall',
      'upper.permittivity',
      'L2.thickness',
      'lower.permittivity',
    ])
  })
})
