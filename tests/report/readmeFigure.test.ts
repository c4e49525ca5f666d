import { readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { describe, expect, it } from 'vitest'
import { renderReport } from '../../src/report/renderReport.ts'
import { review } from '../../src/review.ts'
import { boardOf } from '../boards/referenceBoards.ts'

const FIGURE = resolve(import.meta.dirname, '../../reference/figures/breakout.svg')

describe('the figure of README.md', () => {
  it('is the breakout that the report on the demonstration board draws today', async () => {
    const html = renderReport(review(await boardOf('demo/hydrophone-recorder.yaml')), { version: '0' })
    const figure = html.split('<svg ').find((part) => part.includes('Breakout of U1 on L3')) ?? ''
    const drawn = `<svg ${figure.slice(0, figure.indexOf('</svg>'))}</svg>\n`
    await expect(drawn).toMatchFileSnapshot(FIGURE)
    expect(readFileSync(resolve(import.meta.dirname, '../../README.md'), 'utf8')).toContain(
      'reference/figures/breakout.svg',
    )
  }, 20_000)
})
