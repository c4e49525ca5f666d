import type { Contribution, ProcessSpread } from '../../tolerance/processSpread.ts'
import { formatPercent, formatSignedRange } from '../../units/format.ts'
import { pairs } from './table.ts'

/** What the process does to the impedance of one line, input by input and together. */
export function spreadText(spread: ProcessSpread | null): string {
  if (spread === null) return '  the line does not come out at an end of its tolerances\n'
  const { contributions, likely, worst } = spread
  return pairs([
    ...contributions.map((each): [string, string] => [inputText(each), rangeOf(each)]),
    ['together', `${formatSignedRange(likely)}, root sum of squares`],
    ['all at once', formatSignedRange(worst)],
  ])
}

function inputText({ quantity, of, tolerance, assumed }: Contribution): string {
  return `${quantity} of ${of} ± ${formatPercent(tolerance, 0)}${assumed ? ' (assumed)' : ''}`
}

function rangeOf({ atLower, atUpper }: Contribution): string {
  return formatSignedRange({ lowest: Math.min(atLower, atUpper), highest: Math.max(atLower, atUpper) })
}
