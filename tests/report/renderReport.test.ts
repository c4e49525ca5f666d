import { createHash } from 'node:crypto'
import { describe, expect, it } from 'vitest'
import { linkedReport, renderReport } from '../../src/report/renderReport.ts'
import type { Review } from '../../src/review.ts'
import { sampleReview } from './fixtures/review.ts'
import { danglingReferences, duplicateIds, firstUnbalanced, tagsOf, textOf } from './markup.ts'

const html = renderReport(sampleReview, { version: '0.1.0' })
const text = textOf(html)

const SECTIONS = [
  'answer',
  'findings',
  'packages',
  'stackup',
  'escape',
  'layer-count',
  'impedance',
  'process',
  'discontinuities',
  'coupling',
  'timing',
  'dielectric',
  'manufacturability',
  'inputs',
  'methods',
  'questions',
  'cautions',
  'sign-off',
  'sources',
  'appendix',
]

describe('the report', () => {
  it('is a complete, well-formed document', () => {
    expect(html).toMatch(/^<!doctype html>\n<html lang="en">/)
    expect(html.trimEnd()).toMatch(/<\/html>$/)
    expect(firstUnbalanced(html)).toBeNull()
  })

  it('has no id twice and no reference that leads nowhere', () => {
    expect(duplicateIds(html)).toEqual([])
    expect(danglingReferences(html)).toEqual([])
  })

  it('has its parts in the order that a reader needs them', () => {
    const ids = tagsOf(html)
      .filter((tag) => tag.name === 'section' && tag.attributes.get('class') === 'part')
      .map((tag) => tag.attributes.get('id') ?? '')
    expect(ids.map((id) => id.trim())).toEqual(SECTIONS.filter((id) => id !== 'answer'))
    expect(html.indexOf('id="answer"')).toBeLessThan(html.indexOf('id="findings"'))
  })

  it('lists its parts, each with a link', () => {
    const links = tagsOf(html).flatMap((tag) => (tag.name === 'a' ? (tag.attributes.get('href') ?? []) : []))
    for (const id of SECTIONS) expect(links).toContain(`#${id}`)
  })

  it('says who and what it is of', () => {
    for (const fact of [
      'Camera gateway, carrier board',
      'Revision B',
      'A. Designer',
      '2026-11-20',
      'Narrows 0.1.0',
      'millimetres',
      '1 GHz',
    ]) {
      expect(text).toContain(fact)
    }
  })

  it('never prints what is missing or not a number', () => {
    expect(text).not.toMatch(/undefined|NaN|Infinity|\[object/)
    expect(html).not.toMatch(/[>"]\s*null\s*[<"]/)
  })

  it('loads nothing, runs nothing and styles nothing inline', () => {
    const addresses = tagsOf(html).flatMap((tag) =>
      [tag.attributes.get('src') ?? [], tag.attributes.get('href') ?? []].flat(),
    )
    expect(addresses.filter((address) => !address.startsWith('#'))).toEqual([])
    expect(html).not.toMatch(/<script|\sstyle=|\son[a-z]+="/)
  })

  it('carries a policy that allows its own styles by their hash, and nothing else', () => {
    const css = /<style>([\s\S]*?)<\/style>/.exec(html)?.[1] ?? ''
    const hash = createHash('sha256').update(css).digest('base64').replaceAll('=', '&#x3D;')
    expect(html).toContain(
      `content="default-src 'none'; style-src 'sha256-${hash}'; base-uri 'none'; form-action 'none'"`,
    )
  })

  it('names every table, and every column and row of it', () => {
    const tables = html.match(/<table[\s\S]*?<\/table>/g) ?? []
    expect(tables.length).toBeGreaterThan(20)
    for (const table of tables) {
      const [tag] = tagsOf(table)
      expect(html).toContain(
        `<p class="table-title" id="${tag?.attributes.get('aria-labelledby') ?? 'none'}">`,
      )
      const heads = tagsOf(table)
        .filter((tag) => tag.name === 'th')
        .map((tag) => tag.attributes.get('scope'))
      expect(heads.every((scope) => scope === 'col' || scope === 'row')).toBe(true)
      const rows = (/<tbody>([\s\S]*)<\/tbody>/.exec(table)?.[1] ?? '').match(/<tr>[\s\S]*?<\/tr>/g) ?? []
      for (const row of rows) expect(row.match(/<th scope="row">/g)).toHaveLength(1)
    }
  })

  it('lets the keyboard reach whatever scrolls, by a name', () => {
    const regions = tagsOf(html).filter((tag) => tag.attributes.get('class')?.startsWith('scroll') === true)
    expect(regions.length).toBeGreaterThan(20)
    for (const { attributes } of regions) {
      expect(attributes.get('tabindex')).toBe('0')
      expect(attributes.has('aria-label') || attributes.has('aria-labelledby')).toBe(true)
    }
  })

  it('never skips a level of headings', () => {
    const levels = tagsOf(html)
      .flatMap((tag) => /^h([1-6])$/.exec(tag.name)?.[1] ?? [])
      .map(Number)
    expect(levels[0]).toBe(1)
    expect(levels.filter((level) => level === 1)).toHaveLength(1)
    levels.forEach((level, index) => {
      expect(level - (levels[index - 1] ?? 0)).toBeLessThanOrEqual(1)
    })
  })

  it('has an entry for every finding code of the review', () => {
    for (const { code } of sampleReview.findings) expect(html).toContain(`<code class="code">${code}</code>`)
  })

  it('lists every assumed value with its source', () => {
    for (const { quantity, value, source } of sampleReview.board.assumptions) {
      expect(text).toContain(quantity)
      expect(text).toContain(value)
      expect(text).toContain(source)
    }
  })

  it('has every net in its appendix', () => {
    const appendix = html.slice(html.indexOf('id="appendix"'))
    for (const { net } of sampleReview.signals) expect(appendix).toContain(`>${net}\n</th>`)
  })

  it('prints the cautions and the lines to sign', () => {
    expect(text).toMatch(/estimate for planning/)
    expect(text).toMatch(/TDR coupon/)
    expect(text).toMatch(/insulation or safety/)
    for (const role of ['Design', 'Signal integrity', 'Layout', 'Fabricator'])
      expect(text).toMatch(new RegExp(`${role} .* Name Date Signature`))
  })

  it('is the same twice', () => {
    expect(renderReport(sampleReview, { version: '0.1.0' })).toBe(html)
  })
})

describe('the report as a page of the server', () => {
  const page = linkedReport(sampleReview, '0.1.0', { href: '/boards/a', text: 'Back' })

  it('links its styles and a way back, and says the same otherwise', () => {
    expect(page).toContain('<link rel="stylesheet" href="/assets/base.css">')
    expect(page).toContain('<a href="/boards/a">Back</a>')
    expect(page).not.toContain('<style>')
    expect(page.slice(page.indexOf('<main'))).toBe(html.slice(html.indexOf('<main')))
  })
})

describe('hostile names', () => {
  const evil = `<script>alert(1)</script>"'&`

  it('come out as text, in tables, drawings and headings', () => {
    const { board } = sampleReview
    const hostile: Review = {
      ...sampleReview,
      board: {
        ...board,
        title: evil,
        author: evil,
        packages: board.packages.map((pack) => ({ ...pack, part: evil, via: evil })),
        vias: board.vias.map((via) => ({ ...via, name: evil })),
        fabrication: { ...board.fabrication, source: evil, className: evil },
        stackup: {
          ...board.stackup,
          layers: board.stackup.layers.map((layer) => ({ ...layer, name: evil })),
        },
      },
      findings: sampleReview.findings.map((finding) => ({
        ...finding,
        limitSource: evil,
        subject: { ...finding.subject, name: evil },
      })),
      thicknesses: sampleReview.thicknesses.map((choice) => ({ ...choice, dielectric: evil })),
    }
    const out = renderReport(hostile, { version: evil })
    expect(out).not.toMatch(/<script/)
    expect(firstUnbalanced(out)).toBeNull()
    expect(textOf(out)).toContain(evil)
  })
})

describe('an empty review', () => {
  it('still is a report', () => {
    const { board } = sampleReview
    const empty: Review = {
      board: {
        ...board,
        packages: [],
        vias: [],
        classes: [],
        nets: [],
        claims: [],
        assumptions: [],
        revision: null,
        author: null,
        date: null,
      },
      escapes: [],
      routes: [],
      lines: {
        entries: [],
        neck: () => undefined,
        main: () => undefined,
        along: () => undefined,
        dogBone: () => undefined,
      },
      signals: [],
      skews: [],
      couplings: [],
      spreads: [],
      thicknesses: [],
      findings: [],
    }
    const out = renderReport(empty, { version: '0.1.0' })
    expect(firstUnbalanced(out)).toBeNull()
    expect(textOf(out)).toContain('nothing exceeds its limit, no value is assumed')
    expect(textOf(out)).not.toMatch(/undefined|NaN|Infinity|\bnull\b/)
  })
})

describe('many nets', () => {
  it('share rows in the body, so that it stays readable', () => {
    const body = html.slice(html.indexOf('id="discontinuities-table"'))
    const rows = body.slice(0, body.indexOf('</table>')).match(/<tr>/g) ?? []
    expect(sampleReview.signals.length).toBeGreaterThan(150)
    expect(rows.length).toBeLessThan(15)
  })
})
