/** One row of a comparison: what was computed, what a source says, and how far apart they may be. */
export interface Comparison {
  readonly label: string
  readonly actual: number
  readonly expected: number
  /** Absolute, in the unit of the values. */
  readonly tolerance: number
}

/**
 * Empty when every row agrees, else a report: how many of how many missed, then the misses, worst first, worst
 * being the largest multiple of the tolerance. NaN on either side is a miss, as is a table without rows.
 */
export function missedRows(rows: readonly Comparison[]): string {
  if (rows.length === 0) return 'nothing was compared'
  const missed = rows
    .map((row) => ({ ...row, excess: Math.abs(row.actual - row.expected) / row.tolerance }))
    .filter((row) => !(row.excess <= 1))
    .sort((first, second) => severity(second.excess) - severity(first.excess))
  if (missed.length === 0) return ''
  const lines = missed.map(
    ({ label, actual, expected, tolerance, excess }) =>
      `  ${label}: got ${actual}, expected ${expected} ± ${tolerance} (${excess.toPrecision(3)} times)`,
  )
  return [`${missed.length} of ${rows.length} rows missed, worst first:`, ...lines].join('\n')
}

function severity(excess: number): number {
  return Number.isNaN(excess) ? Infinity : excess
}

/** A tolerance relative to the expected value. */
export function within(ratio: number, label: string, actual: number, expected: number): Comparison {
  return { label, actual, expected, tolerance: ratio * Math.abs(expected) }
}
