import { escapesOf } from '../../escapes.ts'
import type { PackageEscape } from '../../escape/escape.ts'
import { BadInput } from '../badInput.ts'
import { EXIT, type ExitCode } from '../exitCode.ts'
import { drawnEscape } from '../json/drawnEscape.ts'
import { envelope } from '../json/envelope.ts'
import type { EscapeOutput } from '../json/escapeOutput.ts'
import { jsonText } from '../json/jsonText.ts'
import { loadBoard } from '../loadBoard.ts'
import type { Shell } from '../shell.ts'
import { escapeText } from '../text/escapeText.ts'

/** The escape of every package; ends with 1 where a signal ball stays inside or a claim is refuted. */
export async function escapeCommand(
  file: string,
  options: { readonly json?: true },
  shell: Shell,
): Promise<ExitCode> {
  const problems: string[] = []
  const board = await loadBoard(file, shell, problems)
  if (board === null) throw new BadInput(problems)
  const escapes = escapesOf(board)
  const output: EscapeOutput = {
    ...envelope('escape', file, board),
    escapes: escapes.map((escape) => drawnEscape(board, escape)),
  }
  if (options.json === true) shell.write(jsonText(output))
  else shell.print(escapeText(board, escapes))
  return escapes.every(succeeds) ? EXIT.fine : EXIT.findings
}

function succeeds(escape: PackageEscape): boolean {
  const plan = escape.plans.find(({ technology }) => technology === escape.chosen)
  return plan?.unescaped.length === 0 && escape.claims.every(({ verdict }) => verdict === 'confirmed')
}
