import { readdirSync, readFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { describe, expect, it } from 'vitest'
import { compileViews, inlineStyleHash, loadViews } from '../../src/report/templates.ts'
import type { Views } from '../../src/report/templates.ts'
import { everyPage } from './fixtures/pages.ts'
import { sampleReview } from './fixtures/review.ts'

const VIEWS = resolve(import.meta.dirname, '../../views')
const templates = readdirSync(VIEWS, { recursive: true, encoding: 'utf8' }).filter((file) =>
  file.endsWith('.hbs'),
)
const texts = new Map(
  readdirSync(VIEWS, { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.(hbs|css)$/.test(file))
    .map((file) => [file, readFileSync(join(VIEWS, file), 'utf8')]),
)

/** The views with one of them changed. */
function changed(name: string, from: string, to: string): Views {
  const file = `${name}.hbs`
  const text = texts.get(file) ?? ''
  if (!text.includes(from)) throw new Error(`${name} does not hold ${from}`)
  return compileViews(new Map([...texts, [file, text.replace(from, to)]]))
}

/** A board of few nets and balls prints the same kinds of things, and sooner. */
const many = sampleReview.findings.flatMap((finding) =>
  finding.code === 'step-too-large' ? [finding, finding, finding, finding, finding] : [finding],
)
const pages = everyPage({ ...sampleReview, signals: sampleReview.signals.slice(-2), findings: many })

function renderAll(views: Views): void {
  for (const { view, model } of pages) views.render(view, model)
}

/** Every name that a template asks for, with the tag it stands in. */
function namesIn(file: string): { tag: string; name: string; renamed: string }[] {
  const text = readFileSync(join(VIEWS, file), 'utf8')
  return [...text.matchAll(/\{\{\{?([#>]?\s*)([\w/.@]+)?(?:\s+([\w.@]+))?[^}]*\}\}\}?/g)].flatMap((match) => {
    const [tag, sign = '', first = '', second] = match
    const name = sign.trim() === '' ? first : (second ?? '')
    if (name === '' || name === 'this' || name.startsWith('@') || ['else'].includes(name)) return []
    return [
      {
        tag,
        name,
        renamed: tag.replace(
          new RegExp(`${name.replaceAll('.', '\\.')}(?=[\\s}]*[^\\w]*\\}\\}\\}?$)`),
          `${name}x`,
        ),
      },
    ]
  })
}

describe('the views', () => {
  it('are all rendered by one page or another', () => {
    const whole = templates.map((file) => readFileSync(join(VIEWS, file), 'utf8')).join('')
    const unused = loadViews(VIEWS).names.filter(
      (name) => !whole.includes(`> ${name}`) && !pages.some(({ view }) => view === name),
    )
    expect(unused).toEqual([])
  })

  it('render every page, twice the same', () => {
    const views = loadViews(VIEWS)
    for (const { view, model } of everyPage())
      expect(views.render(view, model)).toBe(views.render(view, model))
  })

  it('leave markup unescaped in one place alone: the drawings, which escape their own text', () => {
    const raw = templates.flatMap(
      (file) => readFileSync(join(VIEWS, file), 'utf8').match(/\{\{\{[^}]*\}\}\}/g) ?? [],
    )
    expect(raw).toEqual(['{{{chartSvg}}}'])
  })

  it('hand partials a whole model and never single names, which strictness would not cover', () => {
    const withNames = templates.flatMap(
      (file) => readFileSync(join(VIEWS, file), 'utf8').match(/\{\{#?>[^}]*=[^}]*\}\}/g) ?? [],
    )
    expect(withNames).toEqual([])
  })

  it('carry no style and no script of their own', () => {
    for (const file of templates)
      expect(readFileSync(join(VIEWS, file), 'utf8')).not.toMatch(/style="|<script|\son\w+="/)
  })

  it('load nothing from elsewhere', () => {
    const assets = readdirSync(join(VIEWS, 'assets')).map((file) =>
      readFileSync(join(VIEWS, 'assets', file), 'utf8'),
    )
    for (const text of [...assets, ...templates.map((file) => readFileSync(join(VIEWS, file), 'utf8'))]) {
      expect(text).not.toMatch(/https?:|@import|url\(/)
    }
  })

  it('refuse a view that does not exist', () => {
    expect(() => loadViews(VIEWS).render('pages/nowhere', {})).toThrow('no view pages/nowhere')
  })
})

describe('a misspelt name', () => {
  const slips = templates.flatMap((file) => namesIn(file).map((each) => ({ file, ...each })))

  it('is tried in more than a hundred places', () => {
    expect(slips.filter(({ tag, renamed }) => tag !== renamed).length).toBeGreaterThan(100)
  })

  it.each(slips)('$name in $file stops the page: $renamed', ({ file, tag, renamed }) => {
    expect(renamed).not.toBe(tag)
    expect(() => {
      renderAll(changed(file.replace(/\.hbs$/, ''), tag, renamed))
    }).toThrow()
  })

  it('of a helper or a partial stops it as well', () => {
    expect(() => {
      renderAll(changed('parts/facts', '{{#each facts}}', '{{#eech facts}}'))
    }).toThrow()
    expect(() => {
      renderAll(changed('report', '{{> parts/answer answer}}', '{{> parts/answers answer}}'))
    }).toThrow('could not be found')
  })

  it('of syntax shows when the views are loaded', () => {
    expect(() => changed('parts/facts', '{{/each}}', '')).toThrow()
  })
})

describe('the styles of a report that stands alone', () => {
  it('change their hash with every letter', () => {
    const views = loadViews(VIEWS)
    const other = { ...views, stylesheet: (name: string) => `${views.stylesheet(name) ?? ''} ` }
    expect(inlineStyleHash(views)).toMatch(/^sha256-[\w+/]{43}=$/)
    expect(inlineStyleHash(other)).not.toBe(inlineStyleHash(views))
  })
})
