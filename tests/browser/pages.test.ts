import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { AxeResults } from 'axe-core'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { listen } from '../server/listening.ts'
import type { Listening } from '../server/listening.ts'
import { CHROMIUM, launch } from './chromium.ts'

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

const PAGES = [
  '/',
  '/help',
  '/nowhere',
  '/boards/broken',
  '/boards/small',
  '/boards/small/report',
  '/boards/small/line?layer=L1&width=0.1+mm',
  '/boards/small/line?layer=L1&width=0.1+mm&gap=0.12+mm&coplanar_gap=0.2+mm',
  '/boards/small/line?layer=L2&width=80',
  '/boards/small/compare?package=U1',
  '/boards/small/dielectric?class=&layer=L1&width=0.1+mm&gap=&target=50+ohm&tolerance=10+%25',
] as const

const SIZES = { desk: { width: 1280, height: 900 }, phone: { width: 390, height: 844 } } as const

describe.runIf(CHROMIUM !== undefined)('the pages in Chromium', { timeout: 60_000 }, () => {
  let site: Listening
  let browser: Browser

  beforeAll(async () => {
    site = await listen()
    browser = await launch()
  }, 60_000)

  afterAll(async () => {
    await browser.close()
    await site.close()
  })

  async function open(
    path: string,
    size: keyof typeof SIZES,
    more: { javaScriptEnabled?: boolean } = {},
  ): Promise<Page> {
    const page = await browser.newPage({ viewport: SIZES[size], ...more })
    await page.goto(`${site.address}${path}`)
    return page
  }

  describe.each(PAGES)('%s', (path) => {
    it.each(['desk', 'phone'] as const)('has nothing that axe objects to, on a %s', async (size) => {
      const page = await open(path, size)
      // Evaluated from outside, which the policy of the page does not concern.
      await page.evaluate(AXE)
      const results = await page.evaluate<AxeResults>('axe.run(document, { resultTypes: ["violations"] })')
      await page.close()
      const found = results.violations.map(
        ({ id, nodes }) => `${id}: ${nodes.map((node) => node.html.slice(0, 120)).join(' … ')}`,
      )
      expect(found).toEqual([])
    })

    it('fits a phone: only tables and drawings scroll sideways, inside their own frame', async () => {
      const page = await open(path, 'phone')
      const width = await page.evaluate('document.documentElement.scrollWidth')
      await page.close()
      expect(width).toBeLessThanOrEqual(SIZES.phone.width)
    })

    it('asks for nothing that its own policy refuses', async () => {
      const page = await browser.newPage()
      const refused: string[] = []
      page.on('console', (message) => {
        if (message.type() === 'error' && !/status of 4/.test(message.text())) refused.push(message.text())
      })
      page.on('requestfailed', (request) => refused.push(request.url()))
      await page.goto(`${site.address}${path}`)
      const styled = await page.evaluate(
        'getComputedStyle(document.querySelector("h1")).lineHeight !== "normal"',
      )
      await page.close()
      expect(refused).toEqual([])
      expect(styled).toBe(true)
    })

    it('is reached by the keyboard from top to bottom, with the focus to be seen', async () => {
      const page = await open(path, 'desk')
      const expected = await page.evaluate<string[]>(FOCUSABLE)
      const seen: string[] = []
      for (let count = 0; count < Math.min(expected.length, 40); count++) {
        await page.keyboard.press('Tab')
        const { name, visible } = await page.evaluate<{ name: string; visible: boolean }>(FOCUSED)
        expect(visible, `focus on ${name}`).toBe(true)
        seen.push(name)
      }
      await page.close()
      expect(seen).toEqual(expected.slice(0, 40))
      expect(seen[0]).toMatch(/^a Skip to the/)
    })
  })

  it('compute a line without any script', async () => {
    const page = await open('/boards/small/line', 'desk', { javaScriptEnabled: false })
    await page.getByLabel('Trace width').fill('100 um')
    await page.getByRole('button', { name: 'Compute' }).click()
    const text = await page.locator('main').innerText()
    const address = page.url()
    await page.close()
    expect(text).toMatch(/Impedance\s+[\d.]+\sohm/)
    expect(address).toContain('width=100+um')
  })

  it('take a pasted description without any script', async () => {
    const page = await open('/', 'desk', { javaScriptEnabled: false })
    await page.getByLabel('Board description').fill('title: Mine')
    await page.getByRole('button', { name: 'Review' }).click()
    const kept = await page.getByLabel('Board description').inputValue()
    await page.close()
    expect(kept).toBe('title: Mine')
  })

  it('show every cell of their tables on a phone, without scrolling sideways', async () => {
    const page = await open('/boards/small', 'phone')
    await page.waitForSelector('table')
    const hidden = await page.evaluate<string[]>(CELLS_OUTSIDE)
    const untitled = await page.evaluate<string[]>(CELLS_WITHOUT_TITLE)
    await page.close()
    expect([hidden, untitled]).toEqual([[], []])
  })

  it('keep their drawings within the keyboard’s reach: arrow keys scroll them', async () => {
    const page = await open('/boards/small', 'phone')
    const region = page.locator('figure:not(.small) .scroll').first()
    await region.focus()
    for (let count = 0; count < 3; count++) await page.keyboard.press('ArrowRight')
    await expect
      .poll(() => region.evaluate((element: { scrollLeft: number }) => element.scrollLeft))
      .toBeGreaterThan(0)
    await page.close()
  })
})

/** Name of an element for a message: tag, and how it is called. */
const NAME = `(element) => (element.tagName.toLowerCase() + ' ' + (element.getAttribute('aria-label') || element.getAttribute('aria-labelledby') || element.id || element.textContent.trim())).slice(0, 60)`

/** Cells that reach beyond the screen. */
const CELLS_OUTSIDE = `[...document.querySelectorAll('th, td')].filter((cell) => {
  const box = cell.getBoundingClientRect()
  return box.right > innerWidth + 1 || box.left < -1 || cell.scrollWidth > cell.clientWidth + 1
}).map((cell) => cell.closest('table').id + ': ' + cell.textContent.slice(0, 60))`

/** Cells of rows that are blocks of their own, without the title of their column above. */
const CELLS_WITHOUT_TITLE = `[...document.querySelectorAll('.broad td')].filter((cell) => {
  const said = getComputedStyle(cell, '::before').content
  return said === 'none' || said.length < 5
}).map((cell) => cell.closest('table').id + ': ' + cell.textContent.slice(0, 60))`

const FOCUSABLE = `[...document.querySelectorAll('a[href], button, input, select, textarea, [tabindex="0"]')].map(${NAME})`

const FOCUSED = `(() => {
  const element = document.activeElement
  const style = getComputedStyle(element)
  const box = element.getBoundingClientRect()
  const outlined = style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2
  return { name: (${NAME})(element), visible: outlined && box.width > 0 && box.bottom > 0 && box.top < innerHeight }
})()`
