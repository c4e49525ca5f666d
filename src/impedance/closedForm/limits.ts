/** Validity limit of a formula, as data: the chooser, the report and the tests read the same object. */
export interface Limit {
  /** E.g. `width/height`. */
  readonly quantity: string
  readonly min: number
  readonly max: number
}

export interface Violation extends Limit {
  readonly value: number
}

/**
 * The limits that the given values break. Values that no limit names are ignored; a limit whose
 * quantity is missing is a mistake of the caller.
 *
 * Throws RangeError when a limited quantity is absent or not finite.
 */
export function checkLimits(limits: readonly Limit[], values: Readonly<Record<string, number>>): Violation[] {
  return limits.flatMap((limit) => {
    const value = values[limit.quantity]
    if (value === undefined || !Number.isFinite(value)) {
      throw new RangeError(`limit on ${limit.quantity} needs a finite value, got ${String(value)}`)
    }
    return value >= limit.min && value <= limit.max ? [] : [{ ...limit, value }]
  })
}
