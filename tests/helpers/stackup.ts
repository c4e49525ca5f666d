import type {
  CopperLayer,
  DielectricLayer,
  MaskLayer,
  Stackup,
  StackupLayer,
} from '../../src/board/stackup.ts'

/** Stackup layers built in a line, for tests of the stages after the description. Lengths in micrometres. */
const um = (value: number): number => value * 1e-6

type CopperDraft = Omit<CopperLayer, 'number' | 'position'>

export function copper(name: string, change: Partial<CopperDraft> = {}): CopperDraft {
  return {
    kind: 'copper',
    name,
    role: 'signal',
    planeNet: null,
    thickness: um(18),
    thicknessBasis: 'stated',
    startingFoil: null,
    plating: null,
    bondedTo: 'below',
    sidewallSlope: 0,
    roughness: 0,
    resistivity: 1.7241e-8,
    thicknessTolerance: 0.1,
    assumed: [],
    ...change,
  }
}

export function plane(name: string, net = 'GND', thicknessUm = 18): CopperDraft {
  return copper(name, { role: 'plane', planeNet: net, thickness: um(thicknessUm) })
}

export function dielectric(
  name: string,
  thicknessUm: number,
  relative: number,
  type: 'core' | 'prepreg' = 'core',
): DielectricLayer {
  return {
    kind: 'dielectric',
    name,
    type,
    material: null,
    thickness: um(thicknessUm),
    thicknessBasis: 'pressed, as stated',
    plies: [],
    permittivity: { relative, lossTangent: 0, frequency: 1e9, tolerance: 0.03 },
    thicknessTolerance: 0.1,
    assumed: [],
  }
}

export function mask(
  side: 'top' | 'bottom',
  overLaminateUm = 20,
  overTraceUm = 20,
  relative = 3.5,
): MaskLayer {
  return {
    kind: 'mask',
    name: `${side} mask`,
    side,
    thicknessOverLaminate: um(overLaminateUm),
    thicknessOverTrace: um(overTraceUm),
    permittivity: { relative, lossTangent: 0, frequency: 1e9, tolerance: 0.05 },
    assumed: [],
  }
}

/** Numbers the copper and fills in the sum. */
export function stackup(...drafts: (CopperDraft | DielectricLayer | MaskLayer)[]): Stackup {
  const count = drafts.filter((draft) => draft.kind === 'copper').length
  let number = 0
  const layers = drafts.map((draft): StackupLayer => {
    if (draft.kind !== 'copper') return draft
    number += 1
    return { ...draft, number, position: number === 1 ? 'top' : number === count ? 'bottom' : 'inner' }
  })
  return {
    layers,
    copper: layers.filter((layer) => layer.kind === 'copper'),
    computedThickness: layers.reduce((sum, layer) => sum + (layer.kind === 'mask' ? 0 : layer.thickness), 0),
    statedThickness: null,
    thicknessTolerance: 0.1,
    assumed: [],
  }
}
