import { text as textOf } from 'node:stream/consumers'
import { printable } from './text/printable.ts'

/** What a command may touch besides files: handed in, so that tests can look at it. */
export interface Shell {
  /** Text for people: control characters of a description are made harmless. */
  print(text: string): void
  /** Bytes of an output format, as they are. */
  write(text: string): void
  complain(text: string): void
  /** All of standard input. */
  input(): Promise<string>
}

/** The process's own streams. */
export function processShell(): Shell {
  return {
    print: (text) => {
      process.stdout.write(printable(text))
    },
    write: (text) => {
      process.stdout.write(text)
    },
    complain: (text) => {
      process.stderr.write(printable(text))
    },
    input: () => textOf(process.stdin),
  }
}
