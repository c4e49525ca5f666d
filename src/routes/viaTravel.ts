import { betweenMiddles } from '../board/copperFaces.ts'
import type { Stackup } from '../board/stackup.ts'
import type { ViaType } from '../board/vias.ts'
import type { Metres } from '../units/quantity.ts'

export interface ViaTravel {
  /** Barrel that the signal runs through. */
  readonly depth: Metres
  /** Barrel that hangs beyond the exit layer; 0 where the hole ends there. */
  readonly stub: Metres
}

/**
 * How deep a via takes a signal from the layer of its land to the layer where it leaves, and how much
 * barrel hangs beyond. Both are measured between the middles of copper layers, so that the depths of
 * vias in a row add up, and depth and stub of a hole from the land add up to its whole barrel.
 *
 * Where a net leaves on the layer of its land all the same, the longer end of the barrel is the stub.
 * A backdrill from the side of the hanging end leaves its residual stub, or less where less hangs.
 * Throws RangeError when the via does not reach one of the layers, or a layer is not in the stackup.
 */
export function viaTravel(stackup: Stackup, via: ViaType, landLayer: number, exitLayer: number): ViaTravel {
  const first = Math.min(via.firstLayer, via.lastLayer)
  const last = Math.max(via.firstLayer, via.lastLayer)
  for (const layer of [landLayer, exitLayer]) {
    if (!(layer >= first && layer <= last)) {
      throw new RangeError(`via ${via.name} spans copper layers ${first} to ${last}, not layer ${layer}`)
    }
  }
  const downwards = exitLayer === landLayer ? last - exitLayer >= exitLayer - first : exitLayer > landLayer
  const farEnd = downwards ? last : first
  const full = betweenMiddles(stackup, exitLayer, farEnd)
  const drilledBack = via.backdrill?.from === (downwards ? 'bottom' : 'top') ? via.backdrill : null
  return {
    depth: betweenMiddles(stackup, landLayer, exitLayer),
    stub: drilledBack === null ? full : Math.min(full, drilledBack.residualStub),
  }
}
