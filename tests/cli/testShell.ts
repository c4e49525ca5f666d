import { runProgram } from '../../src/cli/program.ts'
import type { Shell } from '../../src/cli/shell.ts'

export interface Recorded {
  readonly exit: number
  readonly out: string
  readonly err: string
}

/** Runs one command line in this process, with its output kept. */
export async function run(args: readonly string[], input = ''): Promise<Recorded> {
  let out = ''
  let err = ''
  const shell: Shell = {
    print: (text) => {
      out += text
    },
    write: (text) => {
      out += text
    },
    complain: (text) => {
      err += text
    },
    input: () => Promise.resolve(input),
  }
  const exit = await runProgram(args, shell)
  return { exit, out, err }
}
