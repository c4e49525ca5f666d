import { SPEED_OF_LIGHT } from '../units/constants.ts'
import type { Ohms, Ratio, SecondsPerMetre } from '../units/quantity.ts'
import { BoundedMemory } from '../numerics/boundedMemory.ts'
import type { Surroundings } from '../section/surroundings.ts'
import type { LineImpedance } from './estimate.ts'
import { breakoutLine } from './field/breakoutLine.ts'
import { ifSolvable } from './ifSolvable.ts'
import { physicsKey } from './physicsKey.ts'
import { permittivityIn } from './permittivityIn.ts'

/** A neck as its surroundings load it: antipads in its planes, barrels and pads beside it, averaged along the via pitch. */
export interface LoadedLine {
  /** Line impedance of a single trace, differential of a pair. */
  readonly impedance: Ohms
  readonly effectivePermittivity: Ratio
  readonly delay: SecondsPerMetre
  /** Half-width of the error band: that of the line, and what the cuts and the coarser solutions of the ratio leave. */
  readonly band: Ratio
  /** Over the impedance between solid planes with nothing beside. */
  readonly ratio: Ratio
}

/**
 * The line in its surroundings: the ratio of loaded to solid field solution, applied to the line's own value, so that
 * what both solutions have in common, their errors included, drops out.
 *
 * Null where the surroundings leave no room for the line, as when a pad touches it.
 */
export function loadedLine(line: LineImpedance, surroundings: Surroundings): LoadedLine | null {
  const key = `${physicsKey(line.section, permittivityIn(line.frequency))}|${JSON.stringify(surroundings)}`
  const loading = known.recall(key, () => loadingOf(line, surroundings))
  if (loading === null) return null
  const effectivePermittivity = line.effectivePermittivity * loading.permittivityRatio
  return {
    impedance: line.impedance * loading.ratio,
    effectivePermittivity,
    delay: Math.sqrt(effectivePermittivity) / SPEED_OF_LIGHT,
    band: line.chosen.claimedError + RATIO_ERROR,
    ratio: loading.ratio,
  }
}

/** Most of the error of a coarse solution is the same with the vias and without them, and drops out of the ratio. */
const REFINEMENT = { levels: 0, order: 2 }
/** Of the ratio, against finer solutions: 0.2 % at worst, on bare copper. That a cut is taken as extruded is not in it. */
const RATIO_ERROR: Ratio = 0.002

interface Loading {
  readonly ratio: Ratio
  readonly permittivityRatio: Ratio
}

const known = new BoundedMemory<Loading | null>(2000)

function loadingOf({ section, frequency }: LineImpedance, surroundings: Surroundings): Loading | null {
  return ifSolvable(() => {
    const { modes } = breakoutLine(section, surroundings, permittivityIn(frequency), REFINEMENT)
    const mode = modes.kind === 'single' ? modes.line : modes.odd
    return {
      ratio: mode.ratio,
      permittivityRatio: mode.effectivePermittivity / mode.solid.effectivePermittivity,
    }
  })
}
