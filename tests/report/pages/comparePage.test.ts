import { describe, expect, it } from 'vitest'
import { comparePage } from '../../../src/report/pages/comparePage.ts'
import { renderPage } from '../../../src/report/renderPage.ts'
import { board } from '../fixtures/board.ts'
import { comparison } from '../fixtures/comparison.ts'
import { textOf } from '../markup.ts'

const page = comparePage('gateway', board, { typed: {}, problems: [] }, [comparison], '0.1.0')
const text = textOf(renderPage('compare', page))

describe('the page that compares technologies', () => {
  it('says in words, not by colour alone, where nets stay inside and what cannot be built', () => {
    expect(text).toContain('✗ more than the 2 that are reached')
    expect(text).toContain('✗ cannot be built')
    expect(text).toContain('✓ 3 of 5')
  })

  it('gives each way its reason', () => {
    expect(text).toContain('10 nets inside, e.g. E12: no free way out was found on L3')
    expect(text).toContain('Cannot be built: the widest channel, on L1, is 0.174')
    expect(text).toContain('The figures are those of the description')
    expect(text).toContain('Fault of the program: the plan broke clearance rules in 2 places')
  })

  it('gives the worst neck its band, method, class, layer and distance from the target', () => {
    expect(text.replaceAll('\u00a0', ' ')).toContain('116.4 ohm ± 0.3 % differential')
    for (const words of ['Field solution by boundary elements, among vias', 'camera on', '+1.6'])
      expect(text).toContain(words)
  })

  it('marks what was invented as assumed', () => {
    expect(text).toMatch(/Invented via "microvia L1 to L2" assumed/)
  })
})
