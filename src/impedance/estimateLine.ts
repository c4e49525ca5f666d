import type { CrossSection } from '../section/crossSection.ts'
import { SPEED_OF_LIGHT } from '../units/constants.ts'
import type { Hertz, Ohms } from '../units/quantity.ts'
import { CATALOGUE } from './catalogue.ts'
import type { FormulaEstimate, LineImpedance, ModeConstants, Modes } from './estimate.ts'
import { lineLoss } from './lineLoss.ts'

/**
 * Impedance of one cross-section by every closed form that applies; the one that claims the smallest
 * error for this case is chosen, the others follow in the order of their claims.
 *
 * `frequency` (Hz) is where permittivities are taken; the value is quasi-static and lossless.
 * Throws RangeError when no form answers for the section, which the catalogue's test excludes.
 */
export function estimateLine(section: CrossSection, frequency: Hertz): LineImpedance {
  const [chosen, ...others] = estimates(section, frequency)
  return lineImpedance(section, frequency, chosen, others)
}

/**
 * The estimate that `estimateLine` would choose, without the rest: for searches that ask many times.
 *
 * Throws as `estimateLine` does.
 */
export function chosenEstimate(section: CrossSection, frequency: Hertz): FormulaEstimate {
  return estimates(section, frequency)[0]
}

function estimates(section: CrossSection, frequency: Hertz): [FormulaEstimate, ...FormulaEstimate[]] {
  if (!(frequency > 0)) throw new RangeError(`frequency must be above 0, got ${frequency} Hz`)
  const [chosen, ...others] = CATALOGUE.filter((formula) => formula.applies(section))
    .map((formula) => formula.estimate(section, frequency))
    .sort(bySmallerClaim)
  if (chosen === undefined) {
    throw new RangeError(`no closed form answers for a ${section.arrangement} ${section.structure}`)
  }
  return [chosen, ...others]
}

/** A pair whose traces run so far apart, or round so many obstacles, that each is a line of its own. */
export function uncoupledPair(single: LineImpedance): LineImpedance {
  const asPair = (estimate: FormulaEstimate): FormulaEstimate =>
    estimate.modes.kind === 'pair'
      ? estimate
      : { ...estimate, modes: { kind: 'pair', even: estimate.modes.line, odd: estimate.modes.line } }
  return {
    ...lineImpedance(single.section, single.frequency, asPair(single.chosen), single.others.map(asPair)),
    loss: single.loss,
  }
}

/** What a verdict compares with the target: the line impedance, or twice the odd-mode impedance of a pair. */
export function verdictImpedance(modes: Modes): Ohms {
  return modes.kind === 'single' ? modes.line.impedance : 2 * modes.odd.impedance
}

/** The mode that the signal travels in. */
export function verdictMode(modes: Modes): ModeConstants {
  return modes.kind === 'single' ? modes.line : modes.odd
}

function lineImpedance(
  section: CrossSection,
  frequency: Hertz,
  chosen: FormulaEstimate,
  others: readonly FormulaEstimate[],
): LineImpedance {
  const { modes } = chosen
  const impedance = verdictImpedance(modes)
  const { effectivePermittivity } = verdictMode(modes)
  const delay = Math.sqrt(effectivePermittivity) / SPEED_OF_LIGHT
  return {
    section,
    frequency,
    chosen,
    others,
    impedance,
    common: modes.kind === 'pair' ? modes.even.impedance / 2 : null,
    effectivePermittivity,
    delay,
    capacitance: delay / impedance,
    inductance: delay * impedance,
    loss: lineLoss(section, modes, frequency),
  }
}

function bySmallerClaim(first: FormulaEstimate, second: FormulaEstimate): number {
  if (first.claimedError !== second.claimedError) return first.claimedError - second.claimedError
  return first.formula.id < second.formula.id ? -1 : 1
}
