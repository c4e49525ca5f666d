import type { Metres } from '../units/quantity.ts'
import type { Stackup } from './stackup.ts'

/** Depths of the two faces of a copper layer below the top of the first layer, mask included. */
export interface CopperFaces {
  readonly top: Metres
  readonly bottom: Metres
}

/** Where each copper layer lies, by its number. */
export function copperFaces(stackup: Stackup): ReadonlyMap<number, CopperFaces> {
  const faces = new Map<number, CopperFaces>()
  let top = 0
  for (const layer of stackup.layers) {
    const bottom = top + (layer.kind === 'mask' ? layer.thicknessOverTrace : layer.thickness)
    if (layer.kind === 'copper') faces.set(layer.number, { top, bottom })
    top = bottom
  }
  return faces
}

/** Distance between the middles of two copper layers. Throws RangeError when one is not in the stackup. */
export function betweenMiddles(stackup: Stackup, one: number, other: number): Metres {
  const faces = copperFaces(stackup)
  const [from, to] = [faces.get(one), faces.get(other)]
  if (from === undefined || to === undefined) {
    throw new RangeError(`the stackup has no copper layer ${from === undefined ? one : other}`)
  }
  return Math.abs(middleOf(to) - middleOf(from))
}

function middleOf({ top, bottom }: CopperFaces): Metres {
  return (top + bottom) / 2
}
