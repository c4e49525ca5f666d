import { readBoard } from '../board/readBoard.ts'
import type { BoardReading } from '../board/readBoard.ts'
import { review } from '../review.ts'
import type { Review } from '../review.ts'
import { BoardFolder } from './boardFolder.ts'

/** A description as read, and its review once somebody asked for it. */
export interface ShelvedBoard {
  readonly reading: BoardReading
  /** Computed at the first call; null where the description has errors. */
  readonly review: () => Review | null
}

interface Entry {
  readonly board: ShelvedBoard
  /** Stamp of every file that was read for it. */
  readonly stamps: ReadonlyMap<string, string>
}

/** Boards kept; the review of a large one takes some ten megabytes. */
const MOST_KEPT = 16

/** The boards of a folder. What was read and reviewed is kept until one of its files changes. */
export class BoardShelf {
  readonly #folder: BoardFolder
  readonly #kept = new Map<string, Entry>()

  constructor(folder: string) {
    this.#folder = new BoardFolder(folder)
  }

  names(): string[] {
    return [...this.#folder.files().keys()]
  }

  /** Null where there is no board of that name. */
  async board(name: string): Promise<ShelvedBoard | null> {
    const file = this.#folder.files().get(name)
    if (file === undefined) return null
    const kept = this.#kept.get(name)
    const entry = kept !== undefined && this.#isFresh(kept) ? kept : await this.#read(file)
    this.#keep(name, entry)
    return entry.board
  }

  async #read(file: string): Promise<Entry> {
    // Stamps come before the content: a change in between is then seen at the next call.
    const stamps = new Map([[file, this.#folder.stamp(file)]])
    const companion = (name: string): Uint8Array | null => {
      stamps.set(name, this.#folder.stamp(name))
      return this.#folder.companion(name)
    }
    return { board: shelved(await readBoard({ file, text: this.#folder.read(file), companion })), stamps }
  }

  #isFresh({ stamps }: Entry): boolean {
    return [...stamps].every(([file, stamp]) => this.#folder.stamp(file) === stamp)
  }

  /** The latest use stands last; the first is dropped where there are too many. */
  #keep(name: string, entry: Entry): void {
    this.#kept.delete(name)
    this.#kept.set(name, entry)
    const [oldest] = this.#kept.keys()
    if (this.#kept.size > MOST_KEPT && oldest !== undefined) this.#kept.delete(oldest)
  }
}

function shelved(reading: BoardReading): ShelvedBoard {
  let done: Review | null = null
  return {
    reading,
    review: () => {
      if (done === null && reading.board !== null) done = review(reading.board)
      return done
    },
  }
}
