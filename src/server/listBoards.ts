import type { ListedBoard } from '../report/pages/homePage.ts'
import type { ShelvedBoard } from './boardShelf.ts'
import type { Site } from './page.ts'

/** What the list says of each board. Reviews are not computed for it: their findings are counted where they were. */
export async function listBoards({ shelf, counts }: Site): Promise<ListedBoard[]> {
  const listed: ListedBoard[] = []
  for (const name of shelf.names()) {
    const shelved = await shelf.board(name)
    if (shelved !== null) listed.push(listedBoard(name, shelved, counts))
  }
  return listed
}

function listedBoard(name: string, { reading }: ShelvedBoard, counts: Site['counts']): ListedBoard {
  const { board, issues } = reading
  return {
    name,
    title: board?.title ?? null,
    revision: board?.revision ?? null,
    packages: board?.packages.length ?? 0,
    nets: board?.nets.length ?? 0,
    problems: issues.filter((issue) => issue.severity === 'error').length,
    reviewed: board === null ? null : (counts.get(board) ?? null),
  }
}
