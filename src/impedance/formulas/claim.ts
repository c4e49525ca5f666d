import type { Ratio } from '../../units/quantity.ts'
import { checkLimits, type Limit } from '../closedForm/limits.ts'

/** Inside these limits the formula is this good; the basis says who says so. */
export interface ClaimedRegion {
  /** Bounds above 0, or 0 as `min` where that side is open. */
  readonly limits: readonly Limit[]
  readonly error: Ratio
  readonly basis: string
}

/** An error that comes on top because the section is not quite what the formula is for. */
export interface AddedError {
  readonly error: Ratio
  /** E.g. `trapezoid by an equivalent width`. */
  readonly cause: string
}

export interface Claim {
  readonly error: Ratio
  readonly basis: string
}

/**
 * Half-width of the error band of a formula at the given values.
 *
 * 1. The first region that holds gives the error; regions stand from the smallest error to the largest.
 * 2. Where none holds, the last one's error is multiplied, for each limit broken, by twice the factor by which the
 *    value lies outside: a value 1.5 times the limit makes it 3 times the error.
 * 3. Added errors are summed on top, not combined as if they were independent: all of them are systematic.
 *
 * Throws RangeError without regions, for a broken limit of 0, from which no factor follows, and when a
 * limited value is missing.
 */
export function claimAt(
  regions: readonly ClaimedRegion[],
  values: Readonly<Record<string, number>>,
  added: readonly AddedError[] = [],
): Claim {
  const last = regions.at(-1)
  if (last === undefined) throw new RangeError('a claim needs at least one region')
  const inside = regions.find((region) => checkLimits(region.limits, values).length === 0)
  const base = inside ?? {
    error: last.error * growth(last.limits, values),
    basis: `${last.basis}; ${OUTSIDE}`,
  }
  const causes = added.filter(({ error }) => error > 0)
  return {
    error: causes.reduce((sum, { error }) => sum + error, base.error),
    basis: [base.basis, ...causes.map(({ cause }) => cause)].join('; '),
  }
}

const OUTSIDE = 'outside that range, widened by twice the factor of the excess for each limit'

function growth(limits: readonly Limit[], values: Readonly<Record<string, number>>): Ratio {
  return checkLimits(limits, values).reduce((product, { quantity, value, min, max }) => {
    const excess = value > max ? value / max : min / value
    if (!(excess > 1 && Number.isFinite(excess))) {
      throw new RangeError(`no factor of excess for ${quantity} = ${value} outside ${min} to ${max}`)
    }
    return product * 2 * excess
  }, 1)
}
