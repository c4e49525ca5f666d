import { join } from 'node:path'
import type { Board } from '../../board/board.ts'
import { escapesOf } from '../../escapes.ts'
import type { PackageEscape } from '../../escape/escape.ts'
import { BadInput } from '../badInput.ts'
import { EXIT, type ExitCode } from '../exitCode.ts'
import { drawnEscape } from '../json/drawnEscape.ts'
import { envelope } from '../json/envelope.ts'
import type { EscapeOutput } from '../json/escapeOutput.ts'
import { jsonText } from '../json/jsonText.ts'
import { loadBoard } from '../loadBoard.ts'
import { makeFolder, writeOutput } from '../outputFile.ts'
import type { Shell } from '../shell.ts'
import { escapeText } from '../text/escapeText.ts'

export interface EscapeOptions {
  readonly json?: true
  /** Folder for the breakout maps. */
  readonly maps?: string
}

/** The escape of every package; ends with 1 where a signal ball stays inside or a claim is refuted. */
export async function escapeCommand(file: string, options: EscapeOptions, shell: Shell): Promise<ExitCode> {
  const problems: string[] = []
  const board = await loadBoard(file, shell, problems)
  if (board === null) throw new BadInput(problems)
  const escapes = escapesOf(board)
  const output: EscapeOutput = {
    ...envelope('escape', file, board),
    escapes: escapes.map((escape) => drawnEscape(board, escape)),
  }
  const maps = options.maps === undefined ? [] : await writeMaps(options.maps, board, escapes, shell)
  if (options.json === true) shell.write(jsonText(output))
  else shell.print(escapeText(board, escapes, maps))
  return escapes.every(succeeds) ? EXIT.fine : EXIT.findings
}

/** One drawing for each package and layer, named `map-u1-3.svg`; the names of the files. */
async function writeMaps(
  folder: string,
  board: Board,
  escapes: readonly PackageEscape[],
  shell: Shell,
): Promise<string[]> {
  const { breakoutMaps } = await import('../../report/viewModel/breakoutMaps.ts')
  makeFolder(folder)
  return escapes
    .flatMap((escape) => breakoutMaps(board, escape))
    .map(({ id, svg }) => {
      const file = join(folder, `${id}.svg`)
      writeOutput(file, `${svg}\n`, shell)
      return file
    })
}

function succeeds(escape: PackageEscape): boolean {
  const plan = escape.plans.find(({ technology }) => technology === escape.chosen)
  return plan?.unescaped.length === 0 && escape.claims.every(({ verdict }) => verdict === 'confirmed')
}
