import type { Board } from '../../board/board.ts'
import { evaluateLine, processOfLine } from '../../line.ts'
import type { LineRequest } from '../../section/crossSection.ts'
import { BadInput } from '../badInput.ts'
import { EXIT, type ExitCode } from '../exitCode.ts'
import { envelope } from '../json/envelope.ts'
import { jsonLine, jsonText } from '../json/jsonText.ts'
import type { LineOutput } from '../json/lineOutput.ts'
import { lineRequest, readLineQuestion, type LineWords, type Places } from '../lineQuestion.ts'
import { loadBoard } from '../loadBoard.ts'
import { readQueries, type LineQuery } from '../lineQueries.ts'
import type { Shell } from '../shell.ts'
import { lineText } from '../text/lineText.ts'
import { userFault } from '../userFault.ts'

export interface LineOptions extends LineWords {
  readonly queries?: string
  readonly json?: true
}

const OPTIONS: Readonly<Record<keyof LineWords, string>> = {
  layer: '--layer',
  width: '--width',
  gap: '--gap',
  coplanarGap: '--coplanar-gap',
  withLayer: '--with-layer',
}

/** One line of a board, or many with `--queries`. Throws BadInput with all that is wrong. */
export async function lineCommand(file: string, options: LineOptions, shell: Shell): Promise<ExitCode> {
  if (options.queries !== undefined) return answerQueries(file, options.queries, options, shell)
  const places: Places = (part) => OPTIONS[part]
  const problems: string[] = []
  const question = await readLineQuestion(options, places, problems)
  const board = await loadBoard(file, shell, problems)
  const request = board === null ? null : lineRequest(board, question, places, problems)
  if (board === null || request === null || problems.length > 0) throw new BadInput(problems)
  const output = answer(file, board, { id: null, place: 'line', request })
  if (typeof output === 'string') throw new BadInput([output])
  if (options.json === true) shell.write(jsonText(output))
  else shell.print(lineText(board, output.line, output.process))
  return EXIT.fine
}

async function answerQueries(
  file: string,
  queriesFile: string,
  options: LineOptions,
  shell: Shell,
): Promise<ExitCode> {
  const problems = Object.keys(OPTIONS)
    .filter((part) => options[part as keyof LineWords] !== undefined)
    .map(
      (part) => `${OPTIONS[part as keyof LineWords]} has no place beside --queries: it stands in each query`,
    )
  const queries = await readQueries(queriesFile, shell, problems)
  const board = await loadBoard(file, shell, problems)
  if (board === null) throw new BadInput(problems)
  const asked = queries.flatMap(({ id, place, question }) => {
    const request = lineRequest(board, question, (part) => `${place}: ${part}`, problems)
    return request === null ? [] : [{ id, place, request }]
  })
  const answers = asked.map((query) => answer(file, board, query))
  problems.push(...answers.filter((output) => typeof output === 'string'))
  if (problems.length > 0) throw new BadInput(problems)
  shell.write(answers.map((output) => jsonLine(output)).join(''))
  return EXIT.fine
}

/** What the stackup cannot carry comes back as a sentence. */
function answer(
  file: string,
  board: Board,
  { id, place, request }: Pick<LineQuery, 'id' | 'place'> & { readonly request: LineRequest },
): LineOutput | string {
  const line = userFault(place, () => evaluateLine(board, request))
  if (typeof line === 'string') return line
  return { ...envelope('line', file, board), id, request, line, process: processOfLine(board, request) }
}
