import type { Contribution, ProcessSpread } from '../../tolerance/processSpread.ts'
import { formatOhms, formatPercent, formatSignedRange } from '../../units/format.ts'
import type { Ohms } from '../../units/quantity.ts'
import { table } from '../viewModel/table.ts'
import type { CellText, Table } from '../viewModel/table.ts'
import { capital } from '../viewModel/words.ts'

/** What the process does to one line, input by input and together. */
export function processTable(spread: ProcessSpread | null, impedance: Ohms): Table {
  return table({
    id: 'process-table',
    caption: 'What the process does to the impedance',
    columns: ['>Input', '#Tolerance', '#Change', '#Impedance'],
    rows: spread === null ? [] : rows(spread, impedance),
    whenEmpty: 'At an end of its tolerances the line does not come out: it etches away, or a gap closes.',
    notes: [
      'Each input at either end of its tolerance, the others as described. Together: root sum of squares, for inputs that err apart from each other. What a trace gains, the gaps beside it lose. The thickness of the mask is not varied.',
    ],
  })
}

function rows({ contributions, likely, worst }: ProcessSpread, impedance: Ohms): CellText[][] {
  const total = (what: string, range: ProcessSpread['likely']): CellText[] => [
    what,
    '',
    formatSignedRange(range),
    ohmRange(range, impedance),
  ]
  return [
    ...contributions.map((each): CellText[] => {
      const { quantity, of, tolerance, assumed } = each
      const range = rangeOf(each)
      return [
        `${capital(quantity)} of ${of}`,
        { text: `± ${formatPercent(tolerance, 0)}`, mark: assumed ? 'assumed' : null },
        formatSignedRange(range),
        ohmRange(range, impedance),
      ]
    }),
    total('Together', likely),
    total('All at once', worst),
  ]
}

function rangeOf({ atLower, atUpper }: Contribution): ProcessSpread['likely'] {
  return { lowest: Math.min(atLower, atUpper), highest: Math.max(atLower, atUpper) }
}

function ohmRange({ lowest, highest }: ProcessSpread['likely'], impedance: Ohms): string {
  return `${formatOhms(impedance * (1 + lowest))} to ${formatOhms(impedance * (1 + highest))}`
}
