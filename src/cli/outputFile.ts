import { mkdirSync, writeFileSync } from 'node:fs'
import { BadInput } from './badInput.ts'
import { fileTrouble } from './fileTrouble.ts'
import type { Shell } from './shell.ts'

/** Name that means standard output. */
export const STANDARD_OUTPUT = '-'

/** Writes one output to its file or to standard output. Throws BadInput where the file cannot be written. */
export function writeOutput(file: string, text: string, shell: Shell): void {
  if (file === STANDARD_OUTPUT) {
    shell.write(text)
    return
  }
  try {
    writeFileSync(file, text)
  } catch (error) {
    const trouble = fileTrouble(file, error)
    if (trouble === null) throw error
    const lost = error instanceof Error && 'code' in error && error.code === 'ENOENT'
    throw new BadInput([lost ? `cannot write ${file}: its folder does not exist` : `cannot write ${trouble}`])
  }
}

/** Makes a folder for outputs where there is none. Throws BadInput where that fails. */
export function makeFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true })
  } catch (error) {
    const trouble = fileTrouble(folder, error)
    if (trouble === null) throw error
    throw new BadInput([`cannot make the folder ${trouble}`])
  }
}
