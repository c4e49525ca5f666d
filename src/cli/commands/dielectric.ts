import type { Board } from '../../board/board.ts'
import { classThicknesses, traceThickness } from '../../dielectrics.ts'
import type { ThicknessChoice } from '../../dielectric/thicknessChoice.ts'
import { BadInput, problemWith } from '../badInput.ts'
import { EXIT, type ExitCode } from '../exitCode.ts'
import type { DielectricOutput } from '../json/dielectricOutput.ts'
import { envelope } from '../json/envelope.ts'
import { jsonText } from '../json/jsonText.ts'
import { layerNumber, lineRequest, readLineQuestion, type Places } from '../lineQuestion.ts'
import { loadBoard } from '../loadBoard.ts'
import { quantityOption } from '../quantityOption.ts'
import type { Shell } from '../shell.ts'
import { dielectricText } from '../text/dielectricText.ts'
import { userFault } from '../userFault.ts'

export interface DielectricOptions {
  readonly layer?: string
  readonly width?: string
  readonly gap?: string
  readonly coplanarGap?: string
  readonly target?: string
  readonly tolerance?: string
  readonly class?: string
  readonly json?: true
}

const TRACE_OPTIONS = ['width', 'gap', 'coplanarGap', 'target', 'tolerance'] as const
const OPTION_NAMES: Readonly<Record<string, string>> = { coplanarGap: '--coplanar-gap' }
const places: Places = (part) => OPTION_NAMES[part] ?? `--${part}`

/** Half-width of the window of thickness where nothing is said: the usual impedance tolerance, common practice, no source. */
const USUAL_TOLERANCE = '10 %'

/**
 * Thickness that brings a stated trace, or the traces of a class, to the target; ends with 1 where
 * one has no such thickness. Throws BadInput with all that is wrong.
 */
export async function dielectricCommand(
  file: string,
  options: DielectricOptions,
  shell: Shell,
): Promise<ExitCode> {
  const choices =
    options.class === undefined
      ? await choiceForTrace(file, options, shell)
      : await choicesForClass(file, options, options.class, shell)
  const output: DielectricOutput = { ...envelope('dielectric', file, choices.board), choices: choices.found }
  if (options.json === true) shell.write(jsonText(output))
  else shell.print(dielectricText(choices.board, choices.found))
  return choices.found.every(({ thickness }) => thickness !== null) ? EXIT.fine : EXIT.findings
}

interface Choices {
  readonly board: Board
  readonly found: readonly ThicknessChoice[]
}

async function choiceForTrace(file: string, options: DielectricOptions, shell: Shell): Promise<Choices> {
  const problems: string[] = []
  const question = await readLineQuestion(options, places, problems)
  const target = await quantityOption('--target', options.target, 'impedance', problems)
  const tolerance = await quantityOption(
    '--tolerance',
    options.tolerance ?? USUAL_TOLERANCE,
    'ratio',
    problems,
  )
  if (options.layer === undefined || options.width === undefined || options.target === undefined) {
    problems.push('--class NAME instead of --layer, --width and --target takes them from a net class')
  }
  const board = await loadBoard(file, shell, problems)
  const request = board === null ? null : lineRequest(board, question, places, problems)
  if (board === null || request === null || target === null || tolerance === null || problems.length > 0) {
    throw new BadInput(problems)
  }
  const choice = userFault('dielectric', () => traceThickness(board, request, target, tolerance))
  if (typeof choice === 'string') throw new BadInput([choice])
  return { board, found: [choice] }
}

async function choicesForClass(
  file: string,
  options: DielectricOptions,
  className: string,
  shell: Shell,
): Promise<Choices> {
  const problems = TRACE_OPTIONS.filter((part) => options[part] !== undefined).map(
    (part) => `${OPTION_NAMES[part] ?? `--${part}`} has no place beside --class, which has its own`,
  )
  const board = await loadBoard(file, shell, problems)
  if (board === null) throw new BadInput(problems)
  if (!board.classes.some(({ name }) => name === className)) {
    const names = board.classes.map(({ name }) => name).join(', ')
    problems.push(problemWith('--class', `"${className}"`, `a net class of this board: ${names}`))
  }
  const layer = options.layer === undefined ? null : layerNumber(board, options.layer, '--layer', problems)
  if (problems.length > 0) throw new BadInput(problems)
  const all = classThicknesses(board, className)
  const found = layer === null ? all : all.filter((choice) => choice.layer === layer)
  if (found.length === 0) {
    const where = options.layer === undefined ? '' : ` on layer ${options.layer}`
    throw new BadInput([`--class: no planned route of ${className} has a trace of fixed width${where}`])
  }
  return { board, found }
}
