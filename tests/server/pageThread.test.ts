import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, describe, expect, it } from 'vitest'
import type { PageAnswer, PageRequest } from '../../src/server/page.ts'
import { pageThreads } from '../../src/server/pageThread.ts'
import { getPage, listen } from './listening.ts'
import type { Listening } from './listening.ts'

const opened: (() => Promise<void>)[] = []

afterEach(async () => {
  for (const close of opened.splice(0)) await close()
})

/** The served boards, their slow pages made in threads. */
async function threaded(): Promise<Listening> {
  let threads: ReturnType<typeof pageThreads> | null = null
  const make = (request: PageRequest): Promise<PageAnswer> => {
    if (threads === null) throw new Error('asked before the site is open')
    return threads.make(request)
  }
  const site = await listen({ makeSlowly: make })
  threads = pageThreads({ boardsFolder: site.folder, version: '0.1.0' })
  opened.push(threads.close, site.close)
  return site
}

/** A page as a browser gets it that asks again as it is told. */
async function patiently(site: Listening, path: string): Promise<{ status: number; text: string }> {
  for (;;) {
    const { status, text, headers } = await getPage(site, path)
    if (status !== 202) return { status, text }
    expect(headers.get('refresh')).toBe('1')
    expect(text).toContain('The page then appears here by itself')
  }
}

describe('pages made in threads', () => {
  it('are those that this thread would make', async () => {
    const [site, plain] = [await threaded(), await listen()]
    opened.push(plain.close)
    for (const path of ['/boards/small', '/boards/small/report', '/boards/small/dielectric?class=fast']) {
      expect(await patiently(site, path)).toEqual(await patiently(plain, path))
    }
    for (const path of ['/boards/nowhere', '/boards/broken']) {
      expect((await patiently(site, path)).status).toBe((await getPage(plain, path)).status)
    }
  }, 60_000)

  it('leave this thread free, and are counted in the list of boards when they are done', async () => {
    const site = await threaded()
    const review = patiently(site, '/boards/small')
    expect((await getPage(site, '/')).text).toContain('not yet reviewed')
    expect((await review).status).toBe(200)
    expect((await getPage(site, '/')).text).not.toContain('not yet reviewed')
  }, 60_000)

  it('read again what has changed', async () => {
    const site = await threaded()
    await patiently(site, '/boards/broken')
    writeFileSync(join(site.folder, 'broken.yml'), 'title: [')
    const { status, text } = await patiently(site, '/boards/broken/report')
    expect(status).toBe(422)
    expect(text).toContain('broken.yml, line 1')
  }, 60_000)

  it('end with what was thrown, and are made by a new thread after one has ended', async () => {
    const site = await listen()
    opened.push(site.close)
    const { make, close } = pageThreads({ boardsFolder: site.folder, version: '0.1.0' })
    opened.push(close)
    const request: PageRequest = { page: 'board', board: 'small', fields: {} }
    await expect(make({ ...request, page: 'none' as 'board' })).rejects.toThrow()
    const broken = make(request)
    await close()
    await expect(broken).rejects.toThrow('has ended')
    expect((await make(request)).status).toBe(200)
  }, 60_000)
})
