import { Command, CommanderError, Option } from 'commander'
import { BadInput } from './badInput.ts'
import type { CompareOptions } from './commands/compare.ts'
import type { LineOptions } from './commands/line.ts'
import type { DielectricOptions } from './commands/dielectric.ts'
import type { EscapeOptions } from './commands/escape.ts'
import type { ReviewOptions } from './commands/review.ts'
import type { ServeOptions } from './commands/serve.ts'
import { EXIT, type ExitCode } from './exitCode.ts'
import { toolVersion } from './packageRoot.ts'
import type { Shell } from './shell.ts'
import { PAGE_WIDTH } from './text/table.ts'

const USES = `Narrows: impedance of the narrow traces that break out a ball grid array.

  Check high-speed nets through the breakout           narrows review BOARD
  Pick a dielectric thickness for fine traces          narrows dielectric BOARD --class NAME
  Print a review report                                narrows review BOARD --html report.html

BOARD is a description in YAML. Quantities carry their unit: 80um, "3.15 mil", "0.2 mm / 2".
`

const ENDS = `
Exit codes: 0 fine; 1 findings at or above the asked severity; 2 bad input, all of it listed on
standard error and nothing written; 3 a fault of the tool.
`

/** Runs one command line. Each command loads its own code, so that a short one starts fast. */
export async function runProgram(args: readonly string[], shell: Shell): Promise<ExitCode> {
  let exit: ExitCode = EXIT.fine
  const program = buildProgram(shell, (code) => {
    exit = code
  })
  try {
    await program.parseAsync(args, { from: 'user' })
    return exit
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.fine : EXIT.badInput
    if (error instanceof BadInput) {
      shell.complain(error.problems.map((problem) => `${problem}\n`).join(''))
      return EXIT.badInput
    }
    const trace = error instanceof Error ? (error.stack ?? error.message) : String(error)
    shell.complain(`narrows: this is a fault of the tool, not of the input\n${trace}\n`)
    return EXIT.fault
  }
}

type End = (code: ExitCode) => void

function buildProgram(shell: Shell, end: End): Command {
  const program = new Command('narrows')
    .version(toolVersion())
    .addHelpText('before', USES)
    .addHelpText('after', ENDS)
    .exitOverride()
    .configureOutput({
      writeOut: (text) => {
        shell.print(text)
      },
      writeErr: (text) => {
        shell.complain(text)
      },
      getOutHelpWidth: () => PAGE_WIDTH,
      getErrHelpWidth: () => PAGE_WIDTH,
      getOutHasColors: () => false,
      getErrHasColors: () => false,
    })
  addReview(program, shell, end)
  addDielectric(program, shell, end)
  addLine(program, shell, end)
  addEscape(program, shell, end)
  addCompare(program, shell, end)
  addServe(program, shell, end)
  addSchema(program, shell)
  return program
}

function addReview(program: Command, shell: Shell, end: End): void {
  program
    .command('review')
    .description('check a board: escape, necks, steps, fabrication; print findings, write the report')
    .argument('<board>', 'board description')
    .option('--html <file>', 'write the report; - for standard output')
    .option('--json <file>', 'write all results as JSON; - for standard output')
    .addOption(
      new Option('--fail-on <severity>', 'exit with 1 from this severity up')
        .choices(['error', 'warning', 'note', 'never'])
        .default('error'),
    )
    .action(async (board: string, options: ReviewOptions) => {
      const { reviewCommand } = await import('./commands/review.ts')
      end(await reviewCommand(board, options, shell))
    })
}

function addDielectric(program: Command, shell: Shell, end: End): void {
  program
    .command('dielectric')
    .description('which thickness of the dielectric under a fine trace brings it to its target')
    .argument('<board>', 'board description')
    .option('--layer <layer>', 'copper layer of the trace, by name or number')
    .option('--width <length>', 'finished trace width at the foot')
    .option('--gap <length>', 'gap inside an edge-coupled pair')
    .option('--coplanar-gap <length>', 'gap to ground beside the trace')
    .option('--target <impedance>', 'line impedance, or differential for a pair')
    .option(
      '--tolerance <ratio>',
      'plus or minus on the target, for the window of thickness (10 % if not said)',
    )
    .option('--class <name>', 'take width, gap and target from this net class')
    .option('--json', 'print JSON')
    .action(async (board: string, options: DielectricOptions) => {
      const { dielectricCommand } = await import('./commands/dielectric.ts')
      end(await dielectricCommand(board, options, shell))
    })
}

function addLine(program: Command, shell: Shell, end: End): void {
  program
    .command('line')
    .description('impedance of one line by every formula that applies, the chosen one first')
    .argument('<board>', 'board description')
    .option('--layer <layer>', 'copper layer of the trace, by name or number')
    .option('--width <length>', 'finished trace width at the foot')
    .option('--gap <length>', 'gap inside an edge-coupled pair')
    .option('--coplanar-gap <length>', 'gap to ground beside the trace')
    .option('--with-layer <layer>', 'layer of the other trace of a broadside pair')
    .option('--queries <file>', 'many lines: JSON Lines in and out; - for standard input')
    .option('--json', 'print JSON')
    .action(async (board: string, options: LineOptions) => {
      const { lineCommand } = await import('./commands/line.ts')
      end(await lineCommand(board, options, shell))
    })
}

function addEscape(program: Command, shell: Shell, end: End): void {
  program
    .command('escape')
    .description('what passes each channel, signal layers needed by each rule, and the plan for each layer')
    .argument('<board>', 'board description')
    .option('--json', 'print JSON')
    .option('--maps <folder>', 'write a breakout map (SVG) for each package and layer')
    .action(async (board: string, options: EscapeOptions) => {
      const { escapeCommand } = await import('./commands/escape.ts')
      end(await escapeCommand(board, options, shell))
    })
}

function addCompare(program: Command, shell: Shell, end: End): void {
  program
    .command('compare')
    .description('ways to build a breakout side by side: vias, pads, traces; layers, necks, order of cost')
    .argument('<board>', 'board description')
    .option('--package <name>', 'only this package')
    .option('--json', 'print JSON')
    .action(async (board: string, options: CompareOptions) => {
      const { compareCommand } = await import('./commands/compare.ts')
      end(await compareCommand(board, options, shell))
    })
}

function addServe(program: Command, shell: Shell, end: End): void {
  program
    .command('serve')
    .description('show the boards of a folder in a browser')
    .argument('[folder]', 'folder of board descriptions', '.')
    .option('--port <number>', 'port to listen on; 0 for any free one', '8620')
    .option(
      '--host <address>',
      'address to listen on; the default can be reached from this machine alone',
      '127.0.0.1',
    )
    .action(async (folder: string, options: ServeOptions) => {
      const { serveCommand } = await import('./commands/serve.ts')
      end(await serveCommand(folder, options, shell))
    })
}

function addSchema(program: Command, shell: Shell): void {
  program
    .command('schema')
    .description('print the JSON Schema of board descriptions, or of what a command prints as JSON')
    .argument('[name]', 'board, review, line, escape, dielectric or compare', 'board')
    .action(async (name: string) => {
      const { schemaCommand } = await import('./commands/schema.ts')
      schemaCommand(name, shell)
    })
}
