import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { getPage, listen } from './listening.ts'
import type { Listening, Page } from './listening.ts'

let site: Listening

beforeAll(async () => {
  // Slow pages are never ready here.
  site = await listen({ makeSlowly: () => new Promise(() => undefined) })
})

afterAll(async () => {
  await site.close()
})

const get = (path: string): Promise<Page> => getPage(site, path)

describe('a page that is not ready soon', () => {
  it.each([
    ['/boards/small', 'The review is under way'],
    ['/boards/small/report', 'The review is under way'],
    ['/boards/small/compare?package=U1', 'The ways are being planned'],
    ['/boards/small/dielectric?class=fast', 'The thickness is being sought'],
  ])('says so at %s, leads to itself and asks again by itself', async (path, heading) => {
    const { status, headers, html, text } = await get(path)
    expect(status).toBe(202)
    expect(headers.get('refresh')).toBe('1')
    expect(text).toContain(heading)
    expect(text).toContain('Small board')
    expect(html).toContain(`<a href="${path.replaceAll('=', '&#x3D;')}">Look whether it is ready</a>`)
  })

  it('holds up no page that takes no time', async () => {
    for (const path of ['/', '/help', '/boards/small/line', '/boards/small/dielectric'])
      expect((await get(path)).status).toBe(200)
  })

  it('is not waited for where its board is broken or gone', async () => {
    expect((await get('/boards/broken')).status).toBe(422)
    expect((await get('/boards/nowhere')).status).toBe(404)
  })
})
