import { execFileSync } from 'node:child_process'
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { renderReport } from '../../src/report/renderReport.ts'
import { sampleReview } from '../report/fixtures/review.ts'
import { CHROMIUM, launch } from './chromium.ts'

const PDFTOTEXT = '/usr/bin/pdftotext'
const SNAPSHOTS = resolve(import.meta.dirname, '../report/figures/snapshots')

describe.runIf(CHROMIUM !== undefined)('the report as a file of its own', { timeout: 60_000 }, () => {
  let browser: Browser
  const folder = mkdtempSync(join(tmpdir(), 'report-'))
  const file = join(folder, 'report.html')

  beforeAll(async () => {
    writeFileSync(file, renderReport(sampleReview, { version: '0.1.0' }))
    browser = await launch()
  }, 60_000)

  afterAll(async () => {
    await browser.close()
    rmSync(folder, { recursive: true })
  })

  it('asks for nothing, and its styles apply under its own policy', async () => {
    const page = await browser.newPage()
    const asked: string[] = []
    const refused: string[] = []
    page.on('request', (request) => asked.push(request.url()))
    page.on('console', (message) => refused.push(message.text()))
    await page.goto(`file://${file}`)
    const accent = await page.evaluate('getComputedStyle(document.querySelector("nav a")).color')
    await page.close()
    expect(asked).toEqual([`file://${file}`])
    expect(refused).toEqual([])
    expect(accent).toBe('rgb(11, 92, 122)')
  })

  describe.runIf(existsSync(PDFTOTEXT)).each(['A4', 'Letter'] as const)('printed on %s', (format) => {
    let pages: string[] = []

    beforeAll(async () => {
      const page = await browser.newPage()
      await page.goto(`file://${file}`)
      const path = join(folder, `${format}.pdf`)
      await page.pdf({ path, format })
      await page.close()
      const text = execFileSync(PDFTOTEXT, ['-layout', path, '-'], { encoding: 'utf8', maxBuffer: 1e8 })
      pages = text.split('\f').filter((each) => each.trim() !== '')
    }, 60_000)

    it('numbers its pages', () => {
      expect(pages.length).toBeGreaterThan(5)
      pages.forEach((text, index) => {
        expect(text).toContain(`Page ${index + 1} of ${pages.length}`)
      })
    })

    it('has the whole answer on its first page', () => {
      for (const part of [
        'Camera gateway, carrier board',
        'The answer first',
        'Worst step',
        'What must change',
        'further kinds of finding below',
      ])
        expect(pages[0]).toContain(part)
    })

    it('repeats the head of a table on every page that it goes on', () => {
      const withNets = pages.filter(
        (text) => (text.match(/DDR4_CHANNEL_A_BYTE\d_DQ\d+ +U\d/g) ?? []).length > 5,
      )
      expect(withNets.length).toBeGreaterThan(1)
      for (const text of withNets) expect(text).toMatch(/Net +Ball +Exit/)
    })

    it('loses no net at an edge of the paper', () => {
      const text = pages.join('')
      expect(sampleReview.signals.filter(({ net }) => !text.includes(net))).toEqual([])
    })
  })

  it('has drawings that an XML reader accepts', async () => {
    const page = await browser.newPage()
    const failed: string[] = []
    for (const name of readdirSync(SNAPSHOTS)) {
      const svg = readFileSync(join(SNAPSHOTS, name), 'utf8')
      const error = await page.evaluate<string | null>(
        `new DOMParser().parseFromString(${JSON.stringify(svg)}, 'image/svg+xml').querySelector('parsererror')?.textContent ?? null`,
      )
      if (error !== null) failed.push(`${name}: ${error}`)
    }
    await page.close()
    expect(failed).toEqual([])
  })

  it('draws no line over a text: what passes behind one is hidden by the paper round its letters', async () => {
    const page = await browser.newPage()
    const drawn = readdirSync(SNAPSHOTS)
      .filter((name) => /^(channel|neck|broadside)/.test(name))
      .map((name) => readFileSync(join(SNAPSHOTS, name), 'utf8'))
    await page.setContent(drawn.map((svg) => `<figure>${svg}</figure>`).join(''))
    const crossed = await page.evaluate(TEXT_CROSSED)
    await page.close()
    expect(drawn.length).toBeGreaterThan(5)
    expect(crossed).toEqual([])
  })

  it('keeps every text of its drawings inside them', async () => {
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 } })
    await page.goto(`file://${file}`)
    const inReport = await page.evaluate(TEXT_OUTSIDE)
    const drawn = readdirSync(SNAPSHOTS).map((name) => readFileSync(join(SNAPSHOTS, name), 'utf8'))
    await page.setContent(drawn.map((svg) => `<figure>${svg}</figure>`).join(''))
    const inSnapshots = await page.evaluate(TEXT_OUTSIDE)
    await page.close()
    expect([inReport, inSnapshots]).toEqual([[], []])
  })
})

/** Upright lines that are drawn after a text and cross its letters, a unit inside its box. */
const TEXT_CROSSED = `[...document.querySelectorAll('figure svg')].flatMap((svg) => {
  const marks = [...svg.querySelectorAll('text, path')]
  return marks.flatMap((text, place) => {
    if (text.localName !== 'text') return []
    const box = text.getBoundingClientRect()
    return marks.slice(place + 1).filter((line) => {
      const other = line.getBoundingClientRect()
      return line.localName === 'path' && other.width < 1 && other.left > box.left + 1 && other.right < box.right - 1 && other.top < box.bottom - 3 && other.bottom > box.top + 3
    }).map(() => svg.querySelector('title').textContent + ': ' + text.textContent)
  })
})`

const TEXT_OUTSIDE = `[...document.querySelectorAll('figure svg')].flatMap((svg) => {
  const area = svg.getBoundingClientRect()
  return [...svg.querySelectorAll('text')].filter((text) => {
    const box = text.getBoundingClientRect()
    return box.left < area.left - 1 || box.right > area.right + 1 || box.top < area.top - 1 || box.bottom > area.bottom + 1
  }).map((text) => svg.querySelector('title').id + ': ' + text.textContent)
})`
