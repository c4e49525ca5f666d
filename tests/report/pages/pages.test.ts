import { describe, expect, it } from 'vitest'
import { form } from '../../../src/report/pages/form.ts'
import { helpPage } from '../../../src/report/pages/helpPage.ts'
import { homePage } from '../../../src/report/pages/homePage.ts'
import { boardLinks, boardPath } from '../../../src/report/pages/pageFrame.ts'
import { issueList } from '../../../src/report/pages/problemsPage.ts'
import { renderPage } from '../../../src/report/renderPage.ts'
import { views } from '../../../src/report/templates.ts'
import { everyPage, issues } from '../fixtures/pages.ts'
import { danglingReferences, duplicateIds, firstUnbalanced, tagsOf, textOf } from '../markup.ts'

const pages = everyPage().map(
  ({ view, model }, index) => [`${view}, sample ${index}`, views().render(view, model)] as const,
)

describe.each(pages)('the page %s', (_name, html) => {
  it('is well formed, with ids of its own that all lead somewhere', () => {
    expect(firstUnbalanced(html)).toBeNull()
    expect(duplicateIds(html)).toEqual([])
    expect(danglingReferences(html)).toEqual([])
  })

  it('works without a script and without inline style', () => {
    expect(html).not.toMatch(/<script|\sstyle=|\son[a-z]+="|javascript:/)
  })

  it('prints nothing that is missing', () => {
    expect(textOf(html)).not.toMatch(/undefined|NaN|Infinity|\[object/)
  })

  it('has one main part, one first heading, and a link that skips to the content', () => {
    const tags = tagsOf(html)
    expect(tags.filter((tag) => tag.name === 'main')).toHaveLength(1)
    expect(tags.filter((tag) => tag.name === 'h1')).toHaveLength(1)
    expect(tags.find((tag) => tag.name === 'a')?.attributes.get('href')).toBe('#content')
  })

  it('labels every field', () => {
    const tags = tagsOf(html)
    const labelled = new Set(
      tags.filter((tag) => tag.name === 'label').map((tag) => tag.attributes.get('for')),
    )
    const fields = tags.filter((tag) => ['input', 'select', 'textarea'].includes(tag.name))
    expect(fields.filter((tag) => !labelled.has(tag.attributes.get('id')))).toEqual([])
  })
})

describe('the home page', () => {
  const boards = [
    { name: 'a b', title: 'Gateway', revision: 'B', packages: 2, nets: 9, problems: 0, reviewed: null },
  ]

  it('offers the three uses in words, each leading to every readable board', () => {
    const page = homePage(boards, '0.1.0')
    expect(page.uses.map((use) => use.heading)).toEqual([
      'Check high-speed nets through the breakout',
      'Pick a dielectric thickness for fine traces',
      'Print a review report',
    ])
    expect(page.uses.map((use) => use.links[0]?.href)).toEqual([
      '/boards/a%20b',
      '/boards/a%20b/dielectric',
      '/boards/a%20b/report',
    ])
  })

  it('leads to no board that cannot be read', () => {
    const page = homePage(
      boards.map((board) => ({ ...board, title: null, problems: 2 })),
      '0.1.0',
    )
    expect(page.uses.every((use) => !use.hasLinks)).toBe(true)
    expect(textOf(renderPage('home', page))).toContain('2 problems')
  })

  it('says what to do in an empty folder', () => {
    expect(textOf(renderPage('home', homePage([], '0.1.0')))).toContain('The folder holds no description')
  })
})

describe('links of a board', () => {
  it('keep any name inside its place in the path', () => {
    expect(boardPath('../a?b#c', 'line')).toBe('/boards/..%2Fa%3Fb%23c/line')
  })

  it('mark where one is', () => {
    expect(
      boardLinks('a', 'dielectric')
        .links.filter((link) => link.current)
        .map((link) => link.text),
    ).toEqual(['Dielectric thickness'])
  })
})

describe('a form', () => {
  const specs = [
    { name: 'width', label: 'Trace width', hint: 'with unit', suggestion: '80 um' },
    { name: 'layer', label: 'Layer', hint: '', options: [{ value: 'L1', text: 'L1' }] },
  ]

  it('suggests values at first and keeps what was typed after that', () => {
    expect(form('/', 'Go', specs, { typed: {}, problems: [] }).fields[0]?.value).toBe('80 um')
    expect(form('/', 'Go', specs, { typed: { width: 'wide' }, problems: [] }).fields[0]?.value).toBe('wide')
    expect(form('/', 'Go', specs, { typed: { layer: 'L1' }, problems: [] }).fields[0]?.value).toBe('')
  })

  it('keeps a choice that is none of the offers', () => {
    const [, layer] = form('/', 'Go', specs, { typed: { layer: 'L9' }, problems: [] }).fields
    expect(layer?.options.map(({ value, selected }) => [value, selected])).toEqual([
      ['L9', true],
      ['L1', false],
    ])
  })

  it('lists every problem above and each at its field', () => {
    const problems = [
      { field: 'width', text: 'found nothing' },
      { field: '', text: 'no plane' },
    ]
    const made = form('/', 'Go', specs, { typed: { width: '' }, problems })
    expect(made.problems).toEqual({
      heading: '2 things have to be put right',
      items: [
        { href: '#field-width', text: 'Trace width: found nothing' },
        { href: '#content', text: 'no plane' },
      ],
    })
    expect(made.fields[0]).toMatchObject({
      problem: 'found nothing',
      describedBy: 'field-width-hint field-width-problem',
    })
  })
})

describe('problems of a description', () => {
  it('give the place and say each thing once', () => {
    expect(issueList(issues)).toEqual([
      {
        place: 'gateway.yaml, line 14, stackup.layers[2].thickness',
        text: 'The thickness of "core 1" has 0.1 without a unit; write 0.1 mm, not 0.1.',
        kind: 'problem',
      },
      {
        place: 'gateway.yaml',
        text: 'There is no revision. Found: nothing. Allowed: a revision.',
        kind: 'to know',
      },
    ])
  })
})

describe('the help', () => {
  it('explains every part of a description, what is computed and what is not', () => {
    const text = textOf(renderPage('help', helpPage('0.1.0')))
    const parts = [
      'stackup',
      'vias',
      'fabrication',
      'packages',
      'escape',
      'classes',
      'nets',
      'claims',
      'analysis',
    ]
    for (const key of parts) expect(text).toContain(` ${key} `)
    expect(text).toContain('What it does not do')
  })
})
