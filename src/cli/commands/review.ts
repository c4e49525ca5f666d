import { review, type Review } from '../../review.ts'
import { BadInput } from '../badInput.ts'
import { EXIT, type ExitCode } from '../exitCode.ts'
import { fails, type FailOn } from '../failOn.ts'
import { drawnEscape } from '../json/drawnEscape.ts'
import { envelope } from '../json/envelope.ts'
import { jsonText } from '../json/jsonText.ts'
import { namedSpread } from '../json/processSpread.ts'
import type { ReviewOutput } from '../json/reviewOutput.ts'
import { loadBoard } from '../loadBoard.ts'
import { STANDARD_OUTPUT, writeOutput } from '../outputFile.ts'
import { toolVersion } from '../packageRoot.ts'
import type { Shell } from '../shell.ts'
import { reviewText } from '../text/reviewText.ts'

export interface ReviewOptions {
  readonly html?: string
  readonly json?: string
  readonly failOn: FailOn
}

/**
 * Reviews a board: findings to standard output, report and results to files. Whatever goes to
 * standard output itself takes the place of the findings there. Throws BadInput with all that is
 * wrong, and then nothing has been written.
 */
export async function reviewCommand(file: string, options: ReviewOptions, shell: Shell): Promise<ExitCode> {
  const { html, json } = options
  const problems: string[] = []
  if (html !== undefined && html === json) problems.push(`--html and --json cannot both go to ${html}`)
  if (html === file || json === file) problems.push(`${file} is the description; it is not written over`)
  const board = await loadBoard(file, shell, problems)
  if (board === null || problems.length > 0) throw new BadInput(problems)
  const result = review(board)
  const outputs: [string, string][] = []
  if (html !== undefined) outputs.push([html, await reportOf(result)])
  if (json !== undefined) outputs.push([json, jsonText(reviewOutput(file, result))])
  for (const [name, text] of outputs) writeOutput(name, text, shell)
  if (!outputs.some(([name]) => name === STANDARD_OUTPUT)) {
    shell.print(
      reviewText(
        result,
        outputs.map(([name]) => name),
      ),
    )
  }
  return fails(result.findings, options.failOn) ? EXIT.findings : EXIT.fine
}

async function reportOf(result: Review): Promise<string> {
  const { renderReport } = await import('../../report/renderReport.ts')
  return renderReport(result, { version: toolVersion() })
}

/** The review as plain data. */
export function reviewOutput(file: string, result: Review): ReviewOutput {
  const { board, escapes, lines, signals, skews, couplings, spreads, thicknesses, findings } = result
  const count = (severity: string): number =>
    findings.filter((finding) => finding.severity === severity).length
  return {
    ...envelope('review', file, board),
    summary: { errors: count('error'), warnings: count('warning'), notes: count('note') },
    escapes: escapes.map((escape) => drawnEscape(board, escape)),
    lines: lines.entries,
    signals,
    skews,
    couplings,
    spreads: spreads.map(namedSpread),
    thicknesses,
    findings,
    assumptions: board.assumptions,
  }
}
