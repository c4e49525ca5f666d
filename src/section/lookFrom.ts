import type { CopperLayer, DielectricLayer, MaskLayer, Stackup, StackupLayer } from '../board/stackup.ts'
import type { DielectricSheet, ReferencePlane } from './crossSection.ts'

/** What is met on the way from a copper face to the next plane, or out to the air. */
export interface View {
  /** In the order met. */
  readonly sheets: readonly DielectricSheet[]
  readonly plane: ReferencePlane | null
  /** Mask met before the air; null where a plane came first. */
  readonly mask: MaskLayer | null
  readonly emptyLayers: readonly string[]
  /** Every layer whose data the view rests on: of a plane only that it is there, so planes are left out. */
  readonly passed: readonly (CopperLayer | DielectricLayer | MaskLayer)[]
}

/**
 * Looks from one copper layer straight up or down. Stops at the first plane, at `until` when given,
 * or in the air.
 */
export function lookFrom(
  stackup: Stackup,
  from: CopperLayer,
  direction: 'above' | 'below',
  until: CopperLayer | null = null,
): View {
  const ahead = layersAhead(stackup.layers, from, direction)
  const sheets: DielectricSheet[] = []
  const emptyLayers: string[] = []
  const passed: View['passed'][number][] = []
  for (const [index, layer] of ahead.entries()) {
    if (layer === until) break
    if (layer.kind !== 'copper' || layer.role !== 'plane') passed.push(layer)
    if (layer.kind === 'mask') return { sheets, plane: null, mask: layer, emptyLayers, passed }
    if (layer.kind === 'dielectric') {
      sheets.push(sheetOf(layer))
    } else if (layer.role === 'plane') {
      return { sheets, plane: referenceOf(layer), mask: null, emptyLayers, passed }
    } else {
      emptyLayers.push(layer.name)
      const filling = fillingOf(layer, ahead, index, direction)
      if (filling !== null) sheets.push({ ...sheetOf(filling), thickness: layer.thickness })
    }
  }
  return { sheets, plane: null, mask: null, emptyLayers, passed }
}

function layersAhead(
  layers: readonly StackupLayer[],
  from: CopperLayer,
  direction: 'above' | 'below',
): StackupLayer[] {
  const place = layers.indexOf(from)
  if (place < 0) throw new RangeError(`layer ${from.name} is not part of the stackup`)
  return direction === 'below' ? layers.slice(place + 1) : layers.slice(0, place).reverse()
}

/** The dielectric that flows into the slab of a copper layer: the neighbour that its foil was not bonded to. */
function fillingOf(
  empty: CopperLayer,
  ahead: readonly StackupLayer[],
  index: number,
  direction: 'above' | 'below',
): DielectricLayer | null {
  const bodySide = empty.bondedTo === 'below' ? 'above' : 'below'
  const neighbour = bodySide === direction ? ahead[index + 1] : ahead[index - 1]
  // An outer layer's body stands in mask or air: where its copper is absent its slab is not there at all.
  return neighbour?.kind === 'dielectric' ? neighbour : null
}

function sheetOf(layer: DielectricLayer): DielectricSheet {
  return { name: layer.name, thickness: layer.thickness, permittivity: layer.permittivity }
}

function referenceOf(layer: CopperLayer): ReferencePlane {
  return { layer: layer.number, layerName: layer.name, net: layer.planeNet }
}
