import { BoundedMemory } from '../numerics/boundedMemory.ts'
import { ifSolvable } from '../numerics/ifSolvable.ts'
import type { CrossSection } from '../section/crossSection.ts'
import { SPEED_OF_LIGHT } from '../units/constants.ts'
import type { Hertz, Ohms, Ratio } from '../units/quantity.ts'
import { CATALOGUE } from './catalogue.ts'
import type { Estimate, LineImpedance, LineLoss, Modes } from './estimate.ts'
import { fieldEstimate } from './fieldEstimate.ts'
import { lineLoss, signalMode } from './lineLoss.ts'
import type { RunningValue } from './lineTable.ts'
import { permittivityIn } from './permittivityIn.ts'
import { physicsKey } from './physicsKey.ts'

/**
 * Impedance of one cross-section by the field solution and by every closed form that applies; the method with the
 * smallest error band for this case is chosen, the others follow in the order of theirs.
 *
 * `frequency` (Hz) is where permittivities are taken; the value is quasi-static and lossless.
 * Throws RangeError when no method answers for the section.
 */
export function estimateLine(section: CrossSection, frequency: Hertz): LineImpedance {
  const [closedForm, ...rest] = closedForms(section, frequency)
  const field = solvedField(section, frequency)
  if (field === null) return lineImpedance(section, frequency, closedForm, rest)
  return bySmallerClaim(field, closedForm) < 0
    ? lineImpedance(section, frequency, field, [closedForm, ...rest])
    : lineImpedance(section, frequency, closedForm, [field, ...rest].sort(bySmallerClaim))
}

/** The estimate that `estimateLine` would choose, without the rest. Throws as `estimateLine` does. */
export function chosenEstimate(section: CrossSection, frequency: Hertz): Estimate {
  const field = solvedField(section, frequency)
  if (field !== null && field.claimedError < LEAST_CLAIM) return field
  const [closedForm] = closedForms(section, frequency)
  return field !== null && bySmallerClaim(field, closedForm) < 0 ? field : closedForm
}

/** No closed form is chosen before a field solution that claims less. */
const LEAST_CLAIM: Ratio = Math.min(...CATALOGUE.map(({ leastClaim }) => leastClaim))

/** Impedance, delay and band by the chosen method alone, for trials. Throws as `estimateLine` does. */
export function chosenValue(section: CrossSection, frequency: Hertz): RunningValue {
  const { modes, claimedError } = chosenEstimate(section, frequency)
  const delay = Math.sqrt(signalMode(modes).effectivePermittivity) / SPEED_OF_LIGHT
  return { impedance: verdictImpedance(modes), delay, band: claimedError }
}

/**
 * The closed form that claims the smallest error for a section, for searches that ask many times near it: the same
 * form answers throughout, so that no seam between two forms stands in the way of a search. Where it does not apply
 * any more, the best that does takes over.
 *
 * Throws as `estimateLine` does.
 */
export function closedFormNear(section: CrossSection, frequency: Hertz): (section: CrossSection) => Modes {
  const { id } = closedForms(section, frequency)[0].method
  const formula = CATALOGUE.find((candidate) => candidate.id === id)
  return (other) =>
    formula?.applies(other) === true
      ? formula.modes(other, frequency)
      : closedForms(other, frequency)[0].modes
}

/**
 * Values near a section, quickly: the closed form that claims least there, scaled so that at the section itself it says
 * what the chosen method says. The band is that of the chosen method and twice what the two differ by.
 *
 * Throws as `estimateLine` does.
 */
export function valueNear(section: CrossSection, frequency: Hertz): (section: CrossSection) => RunningValue {
  const here = chosenEstimate(section, frequency)
  const closedForm = closedFormNear(section, frequency)
  const [chosen, quick] = [signalMode(here.modes), signalMode(closedForm(section))]
  const scale = chosen.impedance / quick.impedance
  const slowness = Math.sqrt(chosen.effectivePermittivity / quick.effectivePermittivity) / SPEED_OF_LIGHT
  const band = here.claimedError + 2 * Math.abs(scale - 1)
  return (other) => {
    const modes = closedForm(other)
    const delay = slowness * Math.sqrt(signalMode(modes).effectivePermittivity)
    return { impedance: scale * verdictImpedance(modes), delay, band }
  }
}

/** Null where the section is too extreme for the field solution: the closed forms then stand alone. */
function solvedField(section: CrossSection, frequency: Hertz): Estimate | null {
  return ifSolvable(() => fieldEstimate(section, frequency))
}

/** Those that apply, by their claims. Equal sections are asked once and remembered. */
function closedForms(section: CrossSection, frequency: Hertz): readonly [Estimate, ...Estimate[]] {
  if (!(frequency > 0)) throw new RangeError(`frequency must be above 0, got ${frequency} Hz`)
  const key = `${physicsKey(section, permittivityIn(frequency))}|${frequency}`
  return known.recall(key, () => {
    const [best, ...others] = CATALOGUE.filter((formula) => formula.applies(section))
      .map((formula) => formula.estimate(section, frequency))
      .sort(bySmallerClaim)
    if (best === undefined) {
      throw new RangeError(`no closed form answers for a ${section.arrangement} ${section.structure}`)
    }
    return [best, ...others]
  })
}

/** As many as field solutions are. */
const known = new BoundedMemory<readonly [Estimate, ...Estimate[]]>(5000)

/** A pair whose traces run so far apart, or round so many obstacles, that each is a line of its own. */
export function uncoupledPair(single: LineImpedance): LineImpedance {
  const asPair = (estimate: Estimate): Estimate =>
    estimate.modes.kind === 'pair'
      ? estimate
      : { ...estimate, modes: { kind: 'pair', even: estimate.modes.line, odd: estimate.modes.line } }
  const { section, frequency, chosen, others, loss } = single
  return withConstants(section, frequency, asPair(chosen), others.map(asPair), loss)
}

/** What a verdict compares with the target: the line impedance, or twice the odd-mode impedance of a pair. */
export function verdictImpedance(modes: Modes): Ohms {
  return modes.kind === 'single' ? modes.line.impedance : 2 * modes.odd.impedance
}

function lineImpedance(
  section: CrossSection,
  frequency: Hertz,
  chosen: Estimate,
  others: readonly Estimate[],
): LineImpedance {
  const loss = losses.recall(lossKey(section, frequency), () => lineLoss(section, chosen.modes, frequency))
  return withConstants(section, frequency, chosen, others, loss)
}

const losses = new BoundedMemory<LineLoss>(5000)

/** All that the loss of a line rests on, its chosen modes included, which follow from the rest. */
function lossKey(section: CrossSection, frequency: Hertz): string {
  const { trace, below, above, broadside, mask } = section
  const dielectrics = [...below, ...above, ...(broadside?.sheets ?? []), ...(mask === null ? [] : [mask])]
  return [
    physicsKey(section, permittivityIn(frequency)),
    frequency,
    trace.roughness,
    trace.resistivity,
    ...dielectrics.map(({ permittivity }) => {
      return `${permittivity.relative},${permittivity.lossTangent},${permittivity.frequency}`
    }),
  ].join('|')
}

function withConstants(
  section: CrossSection,
  frequency: Hertz,
  chosen: Estimate,
  others: readonly Estimate[],
  loss: LineLoss,
): LineImpedance {
  const { modes } = chosen
  const impedance = verdictImpedance(modes)
  const { effectivePermittivity } = signalMode(modes)
  const delay = Math.sqrt(effectivePermittivity) / SPEED_OF_LIGHT
  return {
    section,
    frequency,
    chosen,
    others,
    closedFormDifference: closedFormDifference([chosen, ...others]),
    impedance,
    common: modes.kind === 'pair' ? modes.even.impedance / 2 : null,
    effectivePermittivity,
    delay,
    capacitance: delay / impedance,
    inductance: delay * impedance,
    loss,
  }
}

function closedFormDifference(estimates: readonly Estimate[]): Ratio | null {
  const field = estimates.find(({ method }) => method.kind === 'field solution')
  const closedForm = estimates.find(({ method }) => method.kind === 'closed form')
  if (field === undefined || closedForm === undefined) return null
  return verdictImpedance(closedForm.modes) / verdictImpedance(field.modes) - 1
}

function bySmallerClaim(first: Estimate, second: Estimate): number {
  if (first.claimedError !== second.claimedError) return first.claimedError - second.claimedError
  return first.method.id < second.method.id ? -1 : 1
}
