import type { ListedBoard } from '../report/pages/homePage.ts'
import type { BoardShelf, ShelvedBoard } from './boardShelf.ts'

/** What the list says of each board. Reviews are not computed for it, only counted where they exist. */
export async function listBoards(shelf: BoardShelf): Promise<ListedBoard[]> {
  const listed: ListedBoard[] = []
  for (const name of shelf.names()) {
    const shelved = await shelf.board(name)
    if (shelved !== null) listed.push(listedBoard(name, shelved))
  }
  return listed
}

function listedBoard(name: string, { reading, reviewed }: ShelvedBoard): ListedBoard {
  const { board, issues } = reading
  const findings = reviewed()?.findings ?? null
  const count = (severity: string): number =>
    (findings ?? []).filter((finding) => finding.severity === severity).length
  return {
    name,
    title: board?.title ?? null,
    revision: board?.revision ?? null,
    packages: board?.packages.length ?? 0,
    nets: board?.nets.length ?? 0,
    problems: issues.filter((issue) => issue.severity === 'error').length,
    reviewed: findings === null ? null : { errors: count('error'), warnings: count('warning') },
  }
}
