import { readFileSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import type { Board } from '../board/board.ts'
import { readBoard } from '../board/readBoard.ts'
import { BadInput, describeIssue } from './badInput.ts'
import { fileTrouble } from './fileTrouble.ts'
import type { Shell } from './shell.ts'

/**
 * Reads a description and the files it names beside it. Warnings are printed; errors, and the
 * `problems` with other input that the caller has found before, are thrown together as BadInput.
 */
export async function loadBoard(
  file: string,
  shell: Shell,
  problems: readonly string[] = [],
): Promise<Board> {
  const text = readDescription(file, problems)
  const { board, issues } = await readBoard({ file, text, companion: companionOf(file) })
  const errors = issues.filter((issue) => issue.severity === 'error').map(describeIssue)
  if (board === null || errors.length > 0 || problems.length > 0) throw new BadInput([...problems, ...errors])
  for (const warning of issues) shell.complain(`${describeIssue(warning)}\n`)
  return board
}

function readDescription(file: string, problems: readonly string[]): Uint8Array {
  try {
    return readFileSync(file)
  } catch (error) {
    const trouble = fileTrouble(file, error)
    if (trouble === null) throw error
    throw new BadInput([...problems, trouble])
  }
}

/** Files that a description names stand beside it. */
function companionOf(file: string): (name: string) => Uint8Array | null {
  return (name) => {
    try {
      return readFileSync(resolve(dirname(file), name))
    } catch {
      return null
    }
  }
}
