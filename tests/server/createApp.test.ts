import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { firstUnbalanced } from '../report/markup.ts'
import { getPage, listen, rawGet } from './listening.ts'
import type { Listening, Page } from './listening.ts'

let site: Listening
const faults: unknown[] = []

beforeAll(async () => {
  site = await listen({ onFault: (fault) => faults.push(fault) })
})

afterAll(async () => {
  await site.close()
})

const get = (path: string): Promise<Page> => getPage(site, path)

describe('the home page', () => {
  it('lists the boards with what is known of each', async () => {
    const { status, text } = await get('/')
    expect(status).toBe(200)
    expect(text).toMatch(/small Small board revision A 1 14 ✓ complete not yet reviewed/)
    expect(text).toMatch(/broken – – – ✗ \d+ problems not possible yet/)
  })

  it('counts findings once a board was reviewed', async () => {
    await get('/boards/small')
    expect((await get('/')).text).toMatch(
      /small Small board revision A 1 14 ✓ complete (✗ \d+ errors?, \d+ warnings?|! \d+ warnings?|✓ nothing exceeds its limit)/,
    )
  })
})

describe('a board', () => {
  it('is reviewed on screen', async () => {
    const { status, html, text } = await get('/boards/small')
    expect(status).toBe(200)
    expect(firstUnbalanced(html)).toBeNull()
    for (const part of ['The answer first', 'Findings', 'Escape, layer by layer', 'Discontinuities'])
      expect(text).toContain(part)
  })

  it('has a printable report with linked styles', async () => {
    const { status, html } = await get('/boards/small/report')
    expect(status).toBe(200)
    expect(html).toContain('href="/assets/report.css"')
    expect(html).toContain('id="sign-off"')
  })

  it('that nobody knows ends with 404', async () => {
    const { status, text } = await get('/boards/nowhere')
    expect(status).toBe(404)
    expect(text).toContain('There is no such board')
  })

  it('whose description has errors ends with 422 and all of them, on every page', async () => {
    for (const page of ['', '/report', '/line', '/dielectric']) {
      const { status, text } = await get(`/boards/broken${page}`)
      expect(status).toBe(422)
      expect(text).toContain('broken cannot be reviewed yet')
      expect(text).toContain('broken.yml, line')
    }
  })

  it.each([
    '/boards/..%2fsmall',
    '/boards/%2e%2e%2f%2e%2e%2fetc%2fpasswd',
    '/boards/small.yaml',
    '/boards/small-u1',
    '/boards/%00',
    '/boards/..',
  ])('is never found outside the listing: %s', async (path) => {
    const { status, text } = await rawGet(site.port, path)
    expect(status).toBe(404)
    expect(text).not.toContain('root:')
  })

  it('with a broken address ends with 400', async () => {
    expect((await rawGet(site.port, '/boards/%zz')).status).toBe(400)
  })

  it('is read again when its file or its ball map changes', async () => {
    const file = join(site.folder, 'small.yaml')
    const before = readFileSync(file, 'utf8')
    writeFileSync(file, before.replace('title: Small board', 'title: Renamed board'))
    expect((await get('/boards/small')).text).toContain('Renamed board')
    writeFileSync(
      join(site.folder, 'small-u1.csv'),
      readFileSync(join(site.folder, 'small-u1.csv'), 'utf8').replace('D13', 'EXTRA_NET'),
    )
    expect((await get('/boards/small/report')).text).toContain('EXTRA_NET')
    writeFileSync(file, before)
    expect((await get('/boards/small')).text).toContain('Small board')
  })

  it('that was moved away is gone', async () => {
    const file = join(site.folder, 'small.yaml')
    renameSync(file, `${file}.away`)
    expect((await get('/boards/small')).status).toBe(404)
    renameSync(`${file}.away`, file)
    expect((await get('/boards/small')).status).toBe(200)
  })

  it('may have any name that a file may have', async () => {
    writeFileSync(join(site.folder, `a & b "c" ü?.yaml`), readFileSync(join(site.folder, 'small.yaml')))
    const { html } = await get('/')
    const href =
      /href="(\/boards\/a[^"]+)"/.exec(html)?.[1]?.replaceAll('&amp;', '&').replaceAll('&#x27;', "'") ?? ''
    expect((await get(href)).status).toBe(200)
  })

  it('is no folder', async () => {
    mkdirSync(join(site.folder, 'folder.yaml'))
    expect((await get('/boards/folder')).status).toBe(404)
    expect((await get('/')).status).toBe(200)
  })
})

describe('the rest of the site', () => {
  it('has help', async () => {
    const { status, text } = await get('/help')
    expect(status).toBe(200)
    expect(text).toContain('What each input means')
  })

  it('serves its stylesheets and nothing beside them', async () => {
    const { status, headers } = await get('/assets/base.css')
    expect(status).toBe(200)
    expect(headers.get('content-type')).toMatch(/^text\/css/)
    for (const path of [
      '/assets/base',
      '/assets/..%2freport.hbs',
      '/assets/',
      '/views/report.hbs',
      '/package.json',
    ]) {
      expect((await rawGet(site.port, path)).status).toBe(404)
    }
  })

  it('answers unknown pages and methods with 404', async () => {
    expect((await get('/nowhere')).text).toContain('There is no such page')
    expect((await fetch(`${site.address}/boards/small`, { method: 'DELETE' })).status).toBe(404)
  })

  it.each(['/', '/boards/small', '/nowhere', '/boards/small/line?width=x', '/assets/base.css'])(
    'is closed to everything foreign at %s',
    async (path) => {
      const { headers } = await get(path)
      expect(headers.get('content-security-policy')).toBe(
        "default-src 'none'; style-src 'self'; img-src 'self' data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
      )
      expect(headers.get('x-content-type-options')).toBe('nosniff')
      expect(headers.get('referrer-policy')).toBe('no-referrer')
      expect(headers.get('x-powered-by')).toBeNull()
    },
  )

  it('had no fault in all of this', () => {
    expect(faults).toEqual([])
  })
})

describe('a fault of the program', () => {
  it('shows none of its details, and tells whoever started it', async () => {
    const told: unknown[] = []
    const other = await listen({ boardsFolder: '/nowhere/at/all', onFault: (fault) => told.push(fault) })
    const response = await fetch(`${other.address}/`)
    const text = await response.text()
    await other.close()
    expect(response.status).toBe(500)
    expect(text).toContain('Something went wrong here')
    expect(text).not.toMatch(/nowhere\/at|ENOENT|\.ts/)
    expect(told).toHaveLength(1)
  })
})
