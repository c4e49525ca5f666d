import type { CrossSection, DielectricSheet, MaskCoat } from '../../src/section/crossSection.ts'

/** Where permittivities of test sections are stated: taken at the same frequency, they are what they are. */
export const TEST_FREQUENCY = 1e9

/** `[thickness, relative permittivity]`, nearest to the trace first. */
export type Sheet = readonly [number, number]

export interface SectionShape {
  readonly width: number
  readonly topWidth?: number
  readonly thickness: number
  readonly foot?: 'below' | 'above'
  readonly below: readonly Sheet[]
  readonly above?: readonly Sheet[]
  readonly twoPlanes?: boolean
  readonly mask?: { readonly overLaminate: number; readonly overTrace: number; readonly permittivity: number }
  readonly coplanarGap?: number
  readonly gap?: number
}

/** A cross-section of the given shape; lengths in metres, everything else as plain as it can be. */
export function lineSection(shape: SectionShape): CrossSection {
  const { width, thickness, topWidth = width, foot = 'below', twoPlanes = false } = shape
  return {
    layer: 1,
    layerName: 'L1',
    upsideDown: false,
    structure: twoPlanes ? 'stripline' : 'microstrip',
    arrangement: shape.gap === undefined ? 'single' : 'edge pair',
    trace: { width, topWidth, thickness, foot, roughness: 0, resistivity: 1.7241e-8 },
    gap: shape.gap ?? null,
    broadside: null,
    coplanarGap: shape.coplanarGap ?? null,
    below: shape.below.map(sheetOf),
    above: (shape.above ?? []).map(sheetOf),
    mask: maskOf(shape.mask),
    planeBelow: { layer: 2, layerName: 'L2', net: 'GND' },
    planeAbove: twoPlanes ? { layer: 0, layerName: 'L0', net: 'GND' } : null,
    emptyLayers: [],
    assumed: [],
  }
}

export function sheetOf([thickness, relative]: Sheet, index: number): DielectricSheet {
  return { name: `sheet ${index + 1}`, thickness, permittivity: permittivityOf(relative) }
}

function maskOf(mask: SectionShape['mask']): MaskCoat | null {
  if (mask === undefined) return null
  const { overLaminate, overTrace, permittivity } = mask
  return { overLaminate, overTrace, permittivity: permittivityOf(permittivity) }
}

function permittivityOf(relative: number): DielectricSheet['permittivity'] {
  return { relative, lossTangent: 0, frequency: TEST_FREQUENCY, tolerance: 0 }
}
