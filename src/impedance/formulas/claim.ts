import type { Ratio } from '../../units/quantity.ts'
import { checkLimits, type Limit } from '../closedForm/limits.ts'

/** Limits inside which the error of a formula was measured apart from elsewhere. */
export interface Region {
  /** Bounds above 0, or 0 as `min` where that side is open. */
  readonly limits: readonly Limit[]
  /** What else the reader of the band should know. */
  readonly note?: string
}

/** What was measured in a region. */
export interface Band {
  readonly error: Ratio
  readonly basis: string
}

/** Where a section lies: in the first region that holds it, or outside the last by a factor of growth. */
export interface Place {
  readonly region: number
  /** 1 inside. */
  readonly growth: Ratio
}

/** An error that comes on top because the section is not quite what the formula is for. */
export interface AddedError {
  readonly error: Ratio
  /** E.g. `trapezoid by an equivalent width`. */
  readonly cause: string
}

/**
 * The region of the given values. Where none holds it is the last one, and for each limit broken its error grows by
 * the factor by which the value lies outside: a value 1.5 times the limit makes it 1.5 times the error.
 *
 * Throws RangeError without regions, for a broken limit of 0, from which no factor follows, and when a limited value
 * is missing.
 */
export function placeOf(regions: readonly Region[], values: Readonly<Record<string, number>>): Place {
  const last = regions.at(-1)
  if (last === undefined) throw new RangeError('a claim needs at least one region')
  const inside = regions.findIndex((region) => checkLimits(region.limits, values).length === 0)
  if (inside >= 0) return { region: inside, growth: 1 }
  return { region: regions.length - 1, growth: growth(last.limits, values) }
}

/**
 * Half-width of the error band of a formula at a place. Added errors are summed on top, not combined as if they were
 * independent: all of them are systematic.
 */
export function claimAt(bands: readonly Band[], place: Place, added: readonly AddedError[] = []): Band {
  const band = bands[place.region]
  if (band === undefined) throw new RangeError(`no band was measured in region ${place.region}`)
  const causes = added.filter(({ error }) => error > 0)
  const outside = place.growth > 1 ? [OUTSIDE] : []
  return {
    error: causes.reduce((sum, { error }) => sum + error, band.error * place.growth),
    basis: [band.basis, ...outside, ...causes.map(({ cause }) => cause)].join('; '),
  }
}

const OUTSIDE = 'outside that range, widened by the factor of the excess for each limit'

function growth(limits: readonly Limit[], values: Readonly<Record<string, number>>): Ratio {
  return checkLimits(limits, values).reduce((product, { quantity, value, min, max }) => {
    const excess = value > max ? value / max : min / value
    if (!(excess > 1 && Number.isFinite(excess))) {
      throw new RangeError(`no factor of excess for ${quantity} = ${value} outside ${min} to ${max}`)
    }
    return product * excess
  }, 1)
}
