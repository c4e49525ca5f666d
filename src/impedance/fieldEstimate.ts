import { BoundedMemory } from '../numerics/boundedMemory.ts'
import type { CrossSection } from '../section/crossSection.ts'
import type { Hertz, Ratio } from '../units/quantity.ts'
import type { Estimate, MethodIdentity, ModeConstants, Modes } from './estimate.ts'
import { fieldModes } from './field/fieldLine.ts'
import type { Refinement } from './field/panels.ts'
import { permittivityIn } from './permittivityIn.ts'
import { physicsKey } from './physicsKey.ts'

/**
 * Half length over distance from which panels that grow from a corner are not cut again beside its images: (1 − 0.2) over
 * twice 0.2, and a little for rounding. Against a fine solution of the finite-element cases the first two refinements
 * then err by 7e-3 and 3.1e-3 at worst, by 6.6e-3 and 2.6e-3 with the finer cuts, which take 1.6 times the unknowns.
 */
const COARSE_REACH: Ratio = 2.05
/** Beginning with the second, each is compared with the one before. */
const REFINEMENTS: readonly [Refinement, ...Refinement[]] = [
  { levels: 0, order: 3, reach: COARSE_REACH },
  { levels: 1, order: 3, reach: COARSE_REACH },
  { levels: 2, order: 3 },
  { levels: 3, order: 4 },
]
/** Each refinement leaves at most 0.4 of the error of the one before: 0.4 / (1 − 0.4) of the last change is left. */
const LEFT_OF_CHANGE = 0.67
/** Finer is of no use to a trace whose width is known to a hundredth. */
const GOOD_ENOUGH: Ratio = 0.001
/** Worst of this project's own independent checks where refinements no longer differ. */
const LEAST_BAND: Ratio = 0.001

const IDENTITY: MethodIdentity = {
  kind: 'field solution',
  id: 'field-boundary-elements',
  title: 'Field solution by boundary elements',
  source:
    'C. Wei, R. F. Harrington, J. R. Mautz, T. K. Sarkar, "Multiconductor transmission lines in multilayered dielectric media", IEEE Trans. MTT-32, 1984, 439–450',
  ownFit: false,
  limits: [],
}

/**
 * The quasi-static field solution of a section, refined until two refinements differ by so little that 0.1 % is
 * left, or to the finest of them; the band is what is left of the last change, and not less than 0.1 %.
 *
 * `frequency` (Hz) is where permittivities are taken. Equal sections are solved once and remembered.
 * Throws RangeError for a section that cannot be drawn (touching conductors, sizes that are not finite).
 */
export function fieldEstimate(section: CrossSection, frequency: Hertz): Estimate {
  const relative = permittivityIn(frequency)
  return solved.recall(physicsKey(section, relative), () =>
    refined((refinement) => fieldModes(section, relative, refinement)),
  )
}

/** Worst of the first refinement beside a fine solution of the finite-element cases. */
const COARSE_BAND: Ratio = 0.007

/**
 * The first refinement alone, at a fraction of the time of `fieldEstimate`. Equal sections are
 * solved once and remembered. Throws as `fieldEstimate` does.
 */
export function coarseField(section: CrossSection, frequency: Hertz): Estimate {
  const relative = permittivityIn(frequency)
  return coarselySolved.recall(physicsKey(section, relative), () => ({
    method: IDENTITY,
    modes: fieldModes(section, relative, REFINEMENTS[0]).modes,
    claimedError: COARSE_BAND,
    errorBasis: 'worst of the coarsest refinement beside a fine one',
    violations: [],
  }))
}

const coarselySolved = new BoundedMemory<Estimate>(5000)

/** A whole review with its searches asks for about three sections of every line. */
const solved = new BoundedMemory<Estimate>(5000)

type Solved = ReturnType<typeof fieldModes>

function refined(solve: (refinement: Refinement) => Solved): Estimate {
  const [coarsest, ...finer] = REFINEMENTS
  let last = solve(coarsest)
  let left = Infinity
  for (const refinement of finer) {
    const next = solve(refinement)
    left = LEFT_OF_CHANGE * change(last.modes, next.modes)
    last = next
    if (left <= GOOD_ENOUGH) break
  }
  return {
    method: IDENTITY,
    modes: last.modes,
    claimedError: Math.max(LEAST_BAND, left),
    errorBasis: 'what two refinements still differ by, not below 0.1 %',
    violations: [],
  }
}

/** Largest relative change of any impedance or effective permittivity. */
function change(before: Modes, after: Modes): Ratio {
  const [old, now] = [constantsOf(before), constantsOf(after)]
  return Math.max(...now.map((value, index) => Math.abs(value / Number(old[index]) - 1)))
}

function constantsOf(modes: Modes): number[] {
  const all: readonly ModeConstants[] = modes.kind === 'single' ? [modes.line] : [modes.even, modes.odd]
  return all.flatMap(({ impedance, effectivePermittivity }) => [impedance, effectivePermittivity])
}
