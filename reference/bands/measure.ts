/** Errors of closed forms against the field solution of the same sections. */
import { CATALOGUE } from '../../src/impedance/catalogue.ts'
import type { Estimate, Formula, Modes } from '../../src/impedance/estimate.ts'
import { fieldEstimate } from '../../src/impedance/fieldEstimate.ts'
import type { CrossSection } from '../../src/section/crossSection.ts'
import { FREQUENCY } from './sections.ts'

/** One closed form on one section. */
export interface Miss {
  readonly formula: Formula
  readonly estimate: Estimate
  /** Relative, of the line impedance or the odd mode, without sign. */
  readonly error: number
  /** The same of the even mode; null for a single trace. */
  readonly even: number | null
  readonly region: number
  readonly growth: number
  readonly added: number
}

/** How far every closed form that answers for the section is off; null where the section has no field solution. */
export function missesOf(section: CrossSection): { misses: Miss[]; band: number } | null {
  const field = fieldOrNull(section)
  if (field === null) return null
  const misses = CATALOGUE.filter((formula) => formula.applies(section)).map((formula): Miss => {
    const estimate = formula.estimate(section, FREQUENCY)
    const even = evenOf(field.modes)
    return {
      formula,
      estimate,
      error: Math.abs(signalOf(estimate.modes) / signalOf(field.modes) - 1),
      even: even === null ? null : Math.abs(Number(evenOf(estimate.modes)) / even - 1),
      ...formula.locate(section, FREQUENCY),
    }
  })
  return { misses, band: field.claimedError }
}

function fieldOrNull(section: CrossSection): Estimate | null {
  try {
    return fieldEstimate(section, FREQUENCY)
  } catch (error) {
    if (error instanceof RangeError) return null
    throw error
  }
}

function signalOf(modes: Modes): number {
  return modes.kind === 'single' ? modes.line.impedance : modes.odd.impedance
}

function evenOf(modes: Modes): number | null {
  return modes.kind === 'single' ? null : modes.even.impedance
}
