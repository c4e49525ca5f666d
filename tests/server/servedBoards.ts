import { afterAll, beforeAll } from 'vitest'
import { getPage, listen } from './listening.ts'
import type { Listening, Page } from './listening.ts'

/** Serves the boards of the tests as long as the tests of the calling file run; gives the way to ask for a page. */
export function servedBoards(): (path: string) => Promise<Page> {
  let site: Listening
  beforeAll(async () => {
    site = await listen()
  })
  afterAll(async () => {
    await site.close()
  })
  return (path) => getPage(site, path)
}
