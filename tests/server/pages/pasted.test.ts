import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { getPage, listen } from '../listening.ts'
import type { Listening, Page } from '../listening.ts'
import { textOf } from '../../report/markup.ts'

let site: Listening

beforeAll(async () => {
  site = await listen()
})

afterAll(async () => {
  await site.close()
})

const get = (path: string): Promise<Page> => getPage(site, path)

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
