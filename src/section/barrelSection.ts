import { copperFaces, type CopperFaces } from '../board/copperFaces.ts'
import type { Permittivity, Stackup, StackupLayer } from '../board/stackup.ts'
import type { ViaType } from '../board/vias.ts'
import type { Metres } from '../units/quantity.ts'

/**
 * A net's way through the board as a cross-section does not show it: holes one below the other about one axis, with their
 * pads, in the openings of the planes. Depths count from the top of the first layer.
 */
export interface BarrelSection {
  /** From top to bottom, masks included. */
  readonly layers: readonly BarrelSectionLayer[]
  readonly holes: readonly { readonly top: Metres; readonly bottom: Metres; readonly diameter: Metres }[]
  /**
   * Depths between which metal counts to the way of the signal: from beyond the land to the near face of the copper that it
   * leaves on. Empty where it leaves on the layer of its land.
   */
  readonly signal: { readonly from: Metres; readonly to: Metres }
}

export interface BarrelSectionLayer {
  readonly thickness: Metres
  /** What fills it beside copper, to be averaged; none is air. */
  readonly filling: readonly Permittivity[]
  /** Diameter of the opening in a plane; 0 in one that no hole reaches, null where there is no plane. */
  readonly opening: Metres | null
  readonly pad: Metres | null
}

export interface BarrelRequest {
  /** From the land inwards. */
  readonly holes: readonly ViaType[]
  readonly landLayer: number
  readonly exitLayer: number
  /** Diameter of the land, where the first hole stands in it. */
  readonly land: Metres | null
}

/**
 * The section of a net's barrel. Staggered holes count as if they stood on one another; drilled-back holes end where the
 * residual stub does, and what they leave counts as filled. Gaps in a copper layer are filled by the dielectrics on either
 * side, of an outer one by its mask or by air. A layer that is not a plane throughout counts as none.
 *
 * Throws RangeError when there is no hole, or a layer is not in the stackup.
 */
export function barrelSection(stackup: Stackup, request: BarrelRequest): BarrelSection {
  if (request.holes.length === 0) throw new RangeError('a barrel needs a hole')
  const faces = copperFaces(stackup)
  const holes = request.holes.map((via) => holeOf(via, request, faces))
  const [land, exit] = [faceOf(faces, request.landLayer), faceOf(faces, request.exitLayer)]
  return {
    layers: stackup.layers.map((layer, index) => sectionLayer(stackup, index, layer, request, holes, faces)),
    holes,
    signal: wayOf(land, exit),
  }
}

function wayOf(land: CopperFaces, exit: CopperFaces): BarrelSection['signal'] {
  if (land.top === exit.top) return { from: 0, to: 0 }
  return land.top < exit.top ? { from: -Infinity, to: exit.top } : { from: exit.bottom, to: Infinity }
}

interface Hole extends CopperFaces {
  readonly diameter: Metres
}

function thicknessOf(layer: StackupLayer): Metres {
  return layer.kind === 'mask' ? layer.thicknessOverTrace : layer.thickness
}

function faceOf(faces: ReadonlyMap<number, CopperFaces>, layer: number): CopperFaces {
  const found = faces.get(layer)
  if (found === undefined) throw new RangeError(`the stackup has no copper layer ${layer}`)
  return found
}

function holeOf(
  via: ViaType,
  { landLayer, exitLayer }: BarrelRequest,
  faces: ReadonlyMap<number, CopperFaces>,
): Hole {
  const { top } = faceOf(faces, Math.min(via.firstLayer, via.lastLayer))
  const { bottom } = faceOf(faces, Math.max(via.firstLayer, via.lastLayer))
  const whole = { top, bottom, diameter: via.drilledDiameter }
  const { backdrill } = via
  const exit = faceOf(faces, exitLayer)
  const middle = (exit.top + exit.bottom) / 2
  // From the other side than the signal came, or it would be cut off.
  if (backdrill?.from === 'bottom' && landLayer <= exitLayer) {
    return { ...whole, bottom: Math.min(bottom, Math.max(exit.bottom, middle + backdrill.residualStub)) }
  }
  if (backdrill?.from === 'top' && landLayer >= exitLayer) {
    return { ...whole, top: Math.max(top, Math.min(exit.top, middle - backdrill.residualStub)) }
  }
  return whole
}

function sectionLayer(
  stackup: Stackup,
  index: number,
  layer: StackupLayer,
  request: BarrelRequest,
  holes: readonly Hole[],
  faces: ReadonlyMap<number, CopperFaces>,
): BarrelSectionLayer {
  const thickness = thicknessOf(layer)
  if (layer.kind !== 'copper') return { thickness, filling: [layer.permittivity], opening: null, pad: null }
  const own = faceOf(faces, layer.number)
  const through = request.holes.filter(({ firstLayer, lastLayer }) =>
    spans(firstLayer, lastLayer, layer.number),
  )
  const hasMetal = holes.some(({ top, bottom }) => top < own.bottom && bottom > own.top)
  const pads = hasMetal ? through.flatMap((via) => padOn(via, layer.number, request)) : []
  const antipads = through.map(({ antipadDiameter }) => antipadDiameter)
  return {
    thickness,
    filling: fillingOf(stackup, index, layer.position),
    opening: layer.role === 'plane' ? Math.max(0, ...antipads) : null,
    pad: pads.length === 0 ? null : Math.max(...pads),
  }
}

function spans(firstLayer: number, lastLayer: number, layer: number): boolean {
  return layer >= Math.min(firstLayer, lastLayer) && layer <= Math.max(firstLayer, lastLayer)
}

/** Its ends, the layers that the signal uses, and every landing of a microvia have pads; the rest where they are kept. */
function padOn(via: ViaType, layer: number, { landLayer, exitLayer, land }: BarrelRequest): Metres[] {
  const { firstLayer, lastLayer, padDiameters, unconnectedInnerPads, arrangement } = via
  const isNeeded = [firstLayer, lastLayer, landLayer, exitLayer].includes(layer) || arrangement !== null
  const own = padDiameters[layer - Math.min(firstLayer, lastLayer)]
  if (own === undefined || !(isNeeded || unconnectedInnerPads === 'kept')) return []
  return layer === landLayer && land !== null ? [Math.max(own, land)] : [own]
}

function fillingOf(
  stackup: Stackup,
  index: number,
  position: 'top' | 'inner' | 'bottom',
): readonly Permittivity[] {
  const beside = [stackup.layers[index - 1], stackup.layers[index + 1]]
  return beside.flatMap((layer) => {
    if (layer === undefined || layer.kind === 'copper') return []
    return position === 'inner' || layer.kind === 'mask' ? [layer.permittivity] : []
  })
}
