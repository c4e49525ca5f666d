import type { Metres, Ratio } from '../../units/quantity.ts'
import type { Ply } from '../stackup.ts'

/** Copper whose body stands in a prepreg: bonded to the dielectric on its other side. */
export interface EmbeddedCopper {
  readonly thickness: Metres
  /** Share of its area that is copper. The resin fills the rest. */
  readonly coverage: Ratio
}

/**
 * Thickness of a prepreg after pressing, from copper face to copper face. Its resin flows into the
 * gaps of each copper pattern embedded in it, and is counted there once:
 *
 *     sum of plies − Σ copper thickness · (1 − coverage)
 *
 * Reproduces a fabricator's chart of single plies of 106 (studylib document 25649012) within 0.1 mil.
 * May come out zero or below: thin prepreg on thick copper. The caller must refuse that.
 */
export function pressedThickness(plies: readonly Ply[], embedded: readonly EmbeddedCopper[]): Metres {
  const free = plies.reduce((sum, ply) => sum + ply.count * ply.thickness, 0)
  return embedded.reduce((left, { thickness, coverage }) => left - thickness * (1 - coverage), free)
}
