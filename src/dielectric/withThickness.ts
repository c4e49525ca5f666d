import type { DielectricLayer, Stackup } from '../board/stackup.ts'
import type { Metres } from '../units/quantity.ts'

/**
 * The same stackup with one dielectric of another pressed thickness; nothing else gives way, so the
 * board becomes thicker or thinner by the difference.
 *
 * Throws RangeError when there is no such dielectric or the thickness is not positive.
 */
export function withThickness(stackup: Stackup, name: string, thickness: Metres): Stackup {
  if (!(thickness > 0)) throw new RangeError(`dielectric thickness must be above 0, got ${thickness} m`)
  const changed = dielectricNamed(stackup, name)
  return {
    ...stackup,
    layers: stackup.layers.map((layer) =>
      layer === changed ? { ...changed, thickness, thicknessBasis: 'varied' } : layer,
    ),
    computedThickness: stackup.computedThickness + thickness - changed.thickness,
  }
}

export function dielectricNamed(stackup: Stackup, name: string): DielectricLayer {
  const found = stackup.layers.find((layer) => layer.kind === 'dielectric' && layer.name === name)
  if (found?.kind !== 'dielectric') throw new RangeError(`the stackup has no dielectric named ${name}`)
  return found
}
