/** What stands round every page of the server. */
export interface PageFrame {
  readonly pageTitle: string
  readonly version: string
  /** Links to the pages of one board; null outside a board. */
  readonly board: BoardLinks | null
}

export interface BoardLinks {
  readonly name: string
  readonly links: readonly { readonly href: string; readonly text: string; readonly current: boolean }[]
}

export type BoardPlace = 'review' | 'report' | 'line' | 'dielectric' | 'compare'

const PLACES: readonly (readonly [BoardPlace, string, string])[] = [
  ['review', '', 'Review'],
  ['line', '/line', 'One line'],
  ['dielectric', '/dielectric', 'Dielectric thickness'],
  ['compare', '/compare', 'Technologies'],
  ['report', '/report', 'Printable report'],
]

/** Path of a board's page; the name may hold any character. */
export function boardPath(name: string, place: BoardPlace = 'review'): string {
  const ending = PLACES.find(([id]) => id === place)?.[1] ?? ''
  return `/boards/${encodeURIComponent(name)}${ending}`
}

export function boardLinks(name: string, here: BoardPlace): BoardLinks {
  return {
    name,
    links: PLACES.map(([place, , text]) => ({ href: boardPath(name, place), text, current: place === here })),
  }
}
