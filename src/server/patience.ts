import type { MakePage, PageAnswer, PageRequest } from './page.ts'

/** Milliseconds that a browser waits before it is told to ask again. */
const PATIENCE = 1500
/** Milliseconds for which a page that nobody came back for is kept. */
const KEPT = 60_000

/** Makes slow pages once, however often a browser asks again for one before it is ready. */
export class Patience {
  readonly #make: MakePage
  readonly #started = new Map<string, Promise<PageAnswer>>()

  constructor(make: MakePage) {
    this.#make = make
  }

  /** The page; null where it is not ready in time: who asks again gets the same. Rejects where making it fails. */
  async page(request: PageRequest): Promise<PageAnswer | null> {
    const key = JSON.stringify(request)
    const started = this.#started.get(key) ?? this.#start(key, request)
    const answer = await inTime(started)
    if (answer !== null) this.#started.delete(key)
    return answer
  }

  #start(key: string, request: PageRequest): Promise<PageAnswer> {
    const started = this.#make(request)
    this.#started.set(key, started)
    const forget = (): void => {
      if (this.#started.get(key) === started) this.#started.delete(key)
    }
    started.then(() => setTimeout(forget, KEPT).unref(), forget)
    return started
  }
}

async function inTime(page: Promise<PageAnswer>): Promise<PageAnswer | null> {
  let timer: NodeJS.Timeout | undefined
  const late = new Promise<null>((resolve) => {
    timer = setTimeout(() => {
      resolve(null)
    }, PATIENCE)
  })
  try {
    return await Promise.race([page, late])
  } finally {
    clearTimeout(timer)
  }
}
