import { readdirSync, readFileSync } from 'node:fs'
import { basename, dirname, join, resolve } from 'node:path'
import type { Board } from '../../src/board/board.ts'
import { readBoard, type BoardReading } from '../../src/board/readBoard.ts'

export const REFERENCE = resolve(import.meta.dirname, '../../reference')

/** Every description that is shipped, as paths below reference/. */
export const DESCRIPTIONS: readonly string[] = ['demo', 'boards'].flatMap((folder) =>
  readdirSync(join(REFERENCE, folder))
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => `${folder}/${name}`),
)

export function descriptionText(path: string): string {
  return readFileSync(join(REFERENCE, path), 'utf8')
}

/** Reads a description as the command does: companions lie beside it. */
export function readDescription(path: string): Promise<BoardReading> {
  const folder = dirname(join(REFERENCE, path))
  return readBoard({
    file: basename(path),
    text: descriptionText(path),
    companion: (name) => readFileSync(join(folder, name)),
  })
}

export async function boardOf(path: string): Promise<Board> {
  const { board, issues } = await readDescription(path)
  if (board === null) throw new Error(`${path}: ${issues.map((issue) => issue.message).join('; ')}`)
  return board
}
