import type { Problem } from '../notes.ts'
import type { CopperLayer } from '../stackup.ts'
import type { LayerDirectory } from './layerDirectory.ts'

/** Copper layers by name and number, and what they are for. */
export interface LayerRoles {
  readonly layers: LayerDirectory
  /** Roles of the copper layers, top to bottom; empty where the stackup cannot be used. */
  readonly roles: readonly CopperLayer['role'][]
}

/** Number of a layer that carries traces, or what is wrong with the reference. */
export function signalLayer(reference: string | number, { layers, roles }: LayerRoles): number | Problem {
  const layer = layers.find(reference)
  if (typeof layer !== 'number' || roles[layer - 1] !== 'plane') return layer
  const signal = layers.names.filter((_, index) => roles[index] !== 'plane').join(', ')
  return {
    found: `${reference}, which is a plane`,
    allowed: signal,
    message: `Layer ${reference} is a plane and carries no traces; signal layers are ${signal}.`,
  }
}

/** Numbers of all layers that carry traces, top to bottom. */
export function signalLayers({ roles }: LayerRoles): number[] {
  return roles.flatMap((role, index) => (role === 'plane' ? [] : [index + 1]))
}
