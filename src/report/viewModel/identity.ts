import { formatFrequency } from '../../units/format.ts'
import type { ReportContext } from './context.ts'
import { count, list } from './words.ts'

export interface Fact {
  readonly label: string
  readonly text: string
}

export interface Identity {
  readonly title: string
  readonly facts: readonly Fact[]
  readonly status: string
  readonly statusTone: 'pass' | 'watch' | 'fail'
}

const PROGRAM_FAULT: Pick<Identity, 'status' | 'statusTone'> = {
  status: 'Not to be used: the program made a plan that breaks clearance rules.',
  statusTone: 'fail',
}

/** Who and what: enough to tell this report from any other of the same board. */
export function identity({ review, length }: ReportContext, version: string): Identity {
  const { board, findings } = review
  const errors = findings.filter((finding) => finding.severity === 'error').length
  const warnings = findings.filter((finding) => finding.severity === 'warning').length
  const packages = board.packages.map(
    (pack) =>
      `${pack.name}${pack.part === null ? '' : ` (${pack.part})`}, ${pack.rows}\u00a0×\u00a0${pack.columns}, pitch ${length(pack.pitch.x)}`,
  )
  return {
    title: board.title,
    facts: [
      { label: 'Revision', text: board.revision ?? 'not stated' },
      { label: 'Author', text: board.author ?? 'not stated' },
      { label: 'Date', text: board.date ?? 'not stated' },
      { label: 'Packages', text: packages.length === 0 ? 'none' : packages.join('; ') },
      { label: 'Units', text: board.displayUnit === 'mm' ? 'millimetres' : 'mils (thousandths of an inch)' },
      { label: 'Permittivity at', text: formatFrequency(board.analysis.frequency) },
      { label: 'Computed by', text: `Narrows ${version}` },
    ],
    ...(review.escapes.some(({ plans }) => plans.some(({ check }) => check.faults.length > 0))
      ? PROGRAM_FAULT
      : status(errors, warnings, board.assumptions.length)),
  }
}

function status(errors: number, warnings: number, assumed: number): Pick<Identity, 'status' | 'statusTone'> {
  const assumptions = assumed === 0 ? 'no value is assumed' : `${count(assumed, 'value')} assumed`
  if (errors > 0) {
    const found = list([count(errors, 'error'), ...(warnings > 0 ? [count(warnings, 'warning')] : [])])
    return { status: `Draft: ${found} to settle, ${assumptions}.`, statusTone: 'fail' }
  }
  if (warnings > 0) {
    return {
      status: `For review: no errors, ${count(warnings, 'warning')}, ${assumptions}.`,
      statusTone: 'watch',
    }
  }
  return { status: `For review: nothing exceeds its limit, ${assumptions}.`, statusTone: 'pass' }
}
