import type { Board } from '../../board/board.ts'
import { compareTechnologies } from '../../compare.ts'
import type { TechnologyComparison } from '../../compare.ts'
import { BadInput, problemWith } from '../badInput.ts'
import { EXIT, type ExitCode } from '../exitCode.ts'
import type { CompareOutput } from '../json/compareOutput.ts'
import { envelope } from '../json/envelope.ts'
import { jsonText } from '../json/jsonText.ts'
import { loadBoard } from '../loadBoard.ts'
import type { Shell } from '../shell.ts'
import { compareText } from '../text/compareText.ts'

export interface CompareOptions {
  /** Name of one package; all of them where it is left out. */
  readonly package?: string
  readonly json?: true
}

/** Ways to build the breakout of a package, side by side; ends with 1 where none of them lets every net out. */
export async function compareCommand(file: string, options: CompareOptions, shell: Shell): Promise<ExitCode> {
  const problems: string[] = []
  const board = await loadBoard(file, shell, problems)
  if (board === null) throw new BadInput(problems)
  const comparisons = compareTechnologies(board, packageAsked(board, options.package))
  const output: CompareOutput = { ...envelope('compare', file, board), comparisons }
  if (options.json === true) shell.write(jsonText(output))
  else shell.print(compareText(board, comparisons))
  return comparisons.every(someWayOut) ? EXIT.fine : EXIT.findings
}

function packageAsked(board: Board, name: string | undefined): string | null {
  if (name === undefined) return null
  if (board.packages.some((pack) => pack.name === name)) return name
  const names = board.packages.map((pack) => pack.name).join(', ')
  throw new BadInput([problemWith('--package', `"${name}"`, `a package of this board: ${names}`)])
}

function someWayOut({ rows }: TechnologyComparison): boolean {
  return rows.some(({ outcome }) => outcome?.unescaped === 0)
}
