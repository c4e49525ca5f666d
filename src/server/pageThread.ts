import { Worker } from 'node:worker_threads'
import type { MakePage, PageAnswer, PageRequest, SiteOptions } from './page.ts'
import type { ThreadAnswer, ThreadQuestion } from './pageWorker.ts'

/** Makes pages in a thread of its own, one after the other, while this one stays free to answer. */
export class PageThread {
  readonly #options: SiteOptions
  readonly #waiting = new Map<number, Waiting>()
  #worker: Worker | null = null
  #asked = 0

  constructor(options: SiteOptions) {
    this.#options = options
  }

  /** Rejects with what the thread threw, or where it ended, as when a page takes more memory than there is. */
  readonly make: MakePage = (request: PageRequest) =>
    new Promise<PageAnswer>((resolve, reject) => {
      this.#asked += 1
      this.#waiting.set(this.#asked, { resolve, reject })
      this.#worker ??= this.#start()
      const question: ThreadQuestion = { id: this.#asked, request }
      this.#worker.postMessage(question)
    })

  async close(): Promise<void> {
    const worker = this.#worker
    this.#worker = null
    await worker?.terminate()
  }

  #start(): Worker {
    const worker = openWorker(this.#options)
    worker.on('message', ({ id, outcome }: ThreadAnswer) => {
      const waiting = this.#waiting.get(id)
      this.#waiting.delete(id)
      if ('fault' in outcome) waiting?.reject(asError(outcome.fault))
      else waiting?.resolve(outcome.answer)
    })
    let fault: Error | null = null
    worker.on('error', (error) => {
      fault = asError(error)
    })
    worker.on('exit', () => {
      if (this.#worker === worker) this.#worker = null
      const reason = fault ?? new Error('the thread that makes pages has ended')
      for (const { reject } of this.#waiting.values()) reject(reason)
      this.#waiting.clear()
    })
    // An idle thread does not keep the program alive.
    worker.unref()
    return worker
  }
}

interface Waiting {
  readonly resolve: (answer: PageAnswer) => void
  readonly reject: (reason: Error) => void
}

/** Of the bundle beside this one; where TypeScript runs as it is written, a thread needs its loader first. */
function openWorker(workerData: SiteOptions): Worker {
  if (!import.meta.url.endsWith('.ts')) {
    return new Worker(new URL('./pageWorker.js', import.meta.url), { workerData })
  }
  const loader = import.meta.resolve('tsx/esm/api')
  const entry = new URL('./pageWorker.ts', import.meta.url).href
  const start = `import(${JSON.stringify(loader)}).then(({ register }) => (register(), import(${JSON.stringify(entry)})))`
  return new Worker(start, { eval: true, workerData })
}

function asError(fault: unknown): Error {
  return fault instanceof Error ? fault : new Error(String(fault))
}

/** Two threads, so that a comparison, which plans a package many times, does not hold up reviews. */
export function pageThreads(options: SiteOptions): { make: MakePage; close: () => Promise<void> } {
  const [reviews, comparisons] = [new PageThread(options), new PageThread(options)]
  return {
    make: (request) => (request.page === 'compare' ? comparisons : reviews).make(request),
    close: async () => {
      await Promise.all([reviews.close(), comparisons.close()])
    },
  }
}
