import { readFileSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import type { Board } from '../board/board.ts'
import { readBoard } from '../board/readBoard.ts'
import { describeIssue } from './badInput.ts'
import { fileTrouble } from './fileTrouble.ts'
import type { Shell } from './shell.ts'

/**
 * Reads a description and the files it names beside it. What is wrong goes to `problems`, and null
 * comes back; warnings are printed only where nothing is wrong.
 */
export async function loadBoard(file: string, shell: Shell, problems: string[]): Promise<Board | null> {
  const text = readDescription(file, problems)
  if (text === null) return null
  const { board, issues } = await readBoard({ file, text, companion: companionOf(file) })
  const errors = issues.filter((issue) => issue.severity === 'error')
  problems.push(...errors.map(describeIssue))
  if (board === null || errors.length > 0) return null
  if (problems.length === 0) for (const warning of issues) shell.complain(`${describeIssue(warning)}\n`)
  return board
}

function readDescription(file: string, problems: string[]): Uint8Array | null {
  try {
    return readFileSync(file)
  } catch (error) {
    const trouble = fileTrouble(file, error)
    if (trouble === null) throw error
    problems.push(trouble)
    return null
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
