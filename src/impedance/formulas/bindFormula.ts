import type { CrossSection } from '../../section/crossSection.ts'
import type { Hertz } from '../../units/quantity.ts'
import { checkLimits } from '../closedForm/limits.ts'
import type { Formula, MethodIdentity, Modes } from '../estimate.ts'
import { type AddedError, claimAt, placeOf, type Region } from './claim.ts'
import { type Bands, measuredBands } from './measuredBands.ts'
import { regimeOf } from './regimes.ts'

/** What a kernel makes of a section: its result, the quantities that limits speak of, and errors on top. */
export interface Solution {
  readonly modes: Modes
  readonly values: Readonly<Record<string, number>>
  readonly added: readonly AddedError[]
}

export interface Binding extends Omit<MethodIdentity, 'kind'> {
  readonly regions: readonly Region[]
  readonly applies: (section: CrossSection) => boolean
  readonly solve: (section: CrossSection, frequency: Hertz) => Solution
}

/**
 * Makes a formula of a kernel bound to sections: solves, checks the published limits, states the error band.
 *
 * The estimate throws RangeError when asked for a section that the formula does not apply to.
 */
export function bindFormula(
  binding: Binding,
  bands: Bands = measuredBands(binding.id, binding.regions),
): Formula {
  const { id, title, source, ownFit, limits, regions, applies, solve } = binding
  const identity: MethodIdentity = { kind: 'closed form', id, title, source, ownFit, limits }
  const solved = (section: CrossSection, frequency: Hertz): Solution => {
    if (!applies(section)) {
      throw new RangeError(`${id} does not answer for a ${section.arrangement} ${section.structure}`)
    }
    return solve(section, frequency)
  }
  return {
    ...identity,
    applies,
    regions: regions.length,
    leastClaim: Math.min(...Object.values(bands).flatMap((own) => own.map(({ error }) => error))),
    modes: (section, frequency) => solved(section, frequency).modes,
    locate(section, frequency) {
      const { values, added } = solve(section, frequency)
      return { ...placeOf(regions, values), added: added.reduce((sum, { error }) => sum + error, 0) }
    },
    estimate(section, frequency) {
      const { modes, values, added } = solved(section, frequency)
      const own = bands[regimeOf(section, frequency)]
      const claim = claimAt(own, placeOf(regions, values), added)
      return {
        method: identity,
        modes,
        claimedError: claim.error,
        errorBasis: claim.basis,
        violations: checkLimits(limits, values),
      }
    },
  }
}
