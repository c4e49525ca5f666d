import { readdirSync, readFileSync, statSync } from 'node:fs'
import { basename, join, resolve, sep } from 'node:path'

/** A folder of descriptions, read only. */
export class BoardFolder {
  readonly #folder: string

  constructor(folder: string) {
    this.#folder = resolve(folder)
  }

  /**
   * File of each board by its name: the file name without its ending. Names are only ever looked up here, so that
   * none leads outside the folder. Where two files differ by their ending alone, `.yaml` is taken.
   */
  files(): Map<string, string> {
    const entries = readdirSync(this.#folder, { withFileTypes: true })
    const files = entries.filter((entry) => !entry.isDirectory()).map((entry) => entry.name)
    const named = (ending: string): [string, string][] =>
      files
        .filter((file) => file.endsWith(ending) && file !== ending)
        .map((file) => [basename(file, ending), file])
    return new Map([...named('.yml'), ...named('.yaml')].sort(([a], [b]) => (a < b ? -1 : 1)))
  }

  read(file: string): Uint8Array {
    return readFileSync(join(this.#folder, file))
  }

  /** A file that a description names beside it; null where there is none, or where it lies outside the folder. */
  companion(name: string): Uint8Array | null {
    const path = resolve(this.#folder, name)
    if (!path.startsWith(this.#folder + sep)) return null
    try {
      return readFileSync(path)
    } catch {
      return null
    }
  }

  /** Changes whenever the file does; empty where there is none. */
  stamp(file: string): string {
    try {
      const { mtimeMs, size, isFile } = stampOf(resolve(this.#folder, file))
      return isFile ? `${mtimeMs} ${size}` : ''
    } catch {
      return ''
    }
  }
}

function stampOf(path: string): { mtimeMs: number; size: number; isFile: boolean } {
  const status = statSync(path)
  return { mtimeMs: status.mtimeMs, size: status.size, isFile: status.isFile() }
}
