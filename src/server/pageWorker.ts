/** The thread of `PageThread`: makes the pages that it is asked for, from a shelf of its own. */
import { parentPort, workerData } from 'node:worker_threads'
import { noteCount, openSite } from './page.ts'
import type { PageAnswer, PageRequest, SiteOptions } from './page.ts'
import { answerPage } from './pages/answerPage.ts'

export interface ThreadQuestion {
  readonly id: number
  readonly request: PageRequest
}

export interface ThreadAnswer {
  readonly id: number
  readonly outcome: { readonly answer: PageAnswer } | { readonly fault: unknown }
}

const site = openSite(workerData as SiteOptions)

parentPort?.on('message', ({ id, request }: ThreadQuestion) => {
  void outcomeOf(request).then((outcome) => {
    const answer: ThreadAnswer = { id, outcome }
    parentPort?.postMessage(answer)
  })
})

async function outcomeOf(request: PageRequest): Promise<ThreadAnswer['outcome']> {
  try {
    const answer = await answerPage(site, request)
    await noteCount(site, request, answer)
    return { answer }
  } catch (fault) {
    return { fault }
  }
}
