import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { firstUnbalanced, textOf } from '../report/markup.ts'
import { listen, rawGet } from './listening.ts'
import type { Listening } from './listening.ts'

let site: Listening
const faults: unknown[] = []

beforeAll(async () => {
  site = await listen({ onFault: (fault) => faults.push(fault) })
})

afterAll(async () => {
  await site.close()
})

async function get(path: string): Promise<{ status: number; html: string; text: string; headers: Headers }> {
  const response = await fetch(`${site.address}${path}`, { redirect: 'manual' })
  const html = await response.text()
  return { status: response.status, html, text: textOf(html), headers: response.headers }
}

async function post(body: URLSearchParams | string, type = 'application/x-www-form-urlencoded') {
  const response = await fetch(`${site.address}/review`, {
    method: 'POST',
    headers: { 'content-type': type },
    body: String(body),
  })
  const html = await response.text()
  return { status: response.status, html, text: textOf(html) }
}

function pasted(): string {
  const text = readFileSync(join(site.folder, 'small.yaml'), 'utf8')
  return text.replace('    ball_map: small-u1.csv\n', '    unlisted: signal\n')
}

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

describe('the page of one line', () => {
  it('begins as a form with a width that is made', async () => {
    const { status, html, text } = await get('/boards/small/line')
    expect(status).toBe(200)
    expect(html).toContain('value="0.080 mm"')
    expect(text).not.toContain('Result')
  })

  it('answers a query, so that the answer can be linked', async () => {
    const { status, text } = await get('/boards/small/line?layer=L1&width=0.1+mm')
    expect(status).toBe(200)
    expect(text).toMatch(/Impedance [\d.]+ ohm ± [\d.]+ % /)
    expect(text).toMatch(/Every formula that applies, the chosen one first .* chosen /)
  })

  it('has the chosen formula first, and its value is the answer', async () => {
    const { text } = await get('/boards/small/line?layer=L1&width=0.1+mm')
    const answer = /Result Impedance ([\d.]+ ohm ± [\d.]+ %)/.exec(text)?.[1] ?? 'none'
    expect(text.slice(text.indexOf('the chosen one first'))).toMatch(new RegExp(`chosen ${answer}`))
  })

  it('reads sums and other units', async () => {
    const one = await get('/boards/small/line?layer=L1&width=0.1+mm')
    const other = await get('/boards/small/line?layer=1&width=60+um+%2B+0.04+mm')
    const value = (text: string): string | undefined => /Impedance ([\d.]+ ohm)/.exec(text)?.[1]
    expect(value(other.text)).toBe(value(one.text))
  })

  it('lists everything wrong at once with 422, and keeps what was typed', async () => {
    const { status, html, text } = await get('/boards/small/line?layer=L2&width=80&gap=wide')
    expect(status).toBe(422)
    expect(text).toContain('3 things have to be put right')
    expect(text).toContain('which is a plane')
    expect(text).toContain('80 without a unit')
    expect(html).toContain('value="80"')
    expect(html).toContain('value="wide"')
    expect(html).toContain('<option value="L2" selected>')
  })

  it('says what the stackup cannot carry, with 422', async () => {
    const { status, text } = await get('/boards/small/line?layer=L1&width=1+um')
    expect(status).toBe(422)
    expect(text).toContain('would etch away')
  })

  it('does not stumble over strange queries', async () => {
    for (const query of [
      'layer=L1&layer=L4&width=1',
      'width[]=1',
      '__proto__=1',
      'layer=%F0%9F%8E%88',
      `width=${'9'.repeat(5000)}`,
    ]) {
      expect((await get(`/boards/small/line?${query}`)).status).toBe(422)
    }
  })
})

describe('the page of the dielectric thickness', () => {
  it('finds the thickness of a trace, with window and curve', async () => {
    const { status, text, html } = await get(
      '/boards/small/dielectric?class=&layer=L1&width=0.1+mm&gap=&target=50+ohm&tolerance=10+%25',
    )
    expect(status).toBe(200)
    expect(text).toMatch(/Thickness of upper prepreg, pressed [\d.]+ mm gives 50.0 ohm/)
    expect(text).toMatch(/Inside the tolerance [\d.]+ to [\d.]+ mm/)
    expect(html).toContain('id="curve-1-title"')
  })

  it('takes width and target from a class, for the layers its nets use', async () => {
    const { status, text } = await get('/boards/small/dielectric?class=fast')
    expect(status).toBe(200)
    expect(text).toMatch(/Neck of fast on L\d, 0.080 mm wide/)
  })

  it('lists everything wrong at once with 422', async () => {
    const { status, text } = await get(
      '/boards/small/dielectric?class=&layer=&width=&gap=&target=50&tolerance=',
    )
    expect(status).toBe(422)
    expect(text).toContain('4 things have to be put right')
  })

  it('knows no class but those of the board', async () => {
    const { status, text } = await get('/boards/small/dielectric?class=nobody')
    expect(status).toBe(422)
    expect(text).toContain('no net class "nobody"')
  })
})

describe('a pasted description', () => {
  it('is reviewed', async () => {
    const { status, text } = await post(new URLSearchParams({ description: pasted() }))
    expect(status).toBe(200)
    expect(text).toContain('Breakout review Small board')
    expect(text).toContain('Back to the form')
  })

  it('is not stored', async () => {
    const before = (await get('/')).text
    await post(new URLSearchParams({ description: pasted().replace('Small board', 'Passing by') }))
    expect((await get('/')).text).toBe(before)
  })

  it('with errors comes back with 422, every problem, and its text', async () => {
    const { status, html, text } = await post(
      new URLSearchParams({ description: 'title: <b>Mine</b> & yours\nvias: 3' }),
    )
    expect(status).toBe(422)
    expect(html).toContain('title: &lt;b&gt;Mine&lt;/b&gt; &amp; yours\nvias: 3</textarea>')
    expect(text).toMatch(/The description has \d+ problems/)
    expect(text).toContain('pasted description, line 2')
  })

  it('cannot reach files of the machine', async () => {
    const { status, text } = await post(
      new URLSearchParams({
        description: readFileSync(join(site.folder, 'small.yaml'), 'utf8').replace(
          'small-u1.csv',
          '/etc/passwd',
        ),
      }),
    )
    expect(status).toBe(422)
    expect(text).not.toContain('root:')
  })

  it('that is empty, of another type or absent is refused as well', async () => {
    for (const answer of [
      await post(''),
      await post('description='),
      await post('{"description":"a"}', 'application/json'),
    ]) {
      expect(answer.status).toBe(422)
    }
  })

  it('above 12 MB ends with 413 and says so', async () => {
    const { status, text } = await post(`description=${'a'.repeat(12 * 1024 * 1024 + 1)}`)
    expect(status).toBe(413)
    expect(text).toContain('Not more than 12 MB')
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
