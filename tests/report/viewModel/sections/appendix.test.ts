import { describe, expect, it } from 'vitest'
import { reportContext } from '../../../../src/report/viewModel/context.ts'
import { appendixSection } from '../../../../src/report/viewModel/sections/appendix.ts'
import { escapeSection } from '../../../../src/report/viewModel/sections/escape.ts'
import { sampleReview } from '../../fixtures/review.ts'
import { tagsOf } from '../../markup.ts'

const context = reportContext(sampleReview)
const exits = appendixSection(context)
  .tables.filter(({ id }) => id.startsWith('nets-'))
  .flatMap((table) => table.rows.map(({ cells }) => cells))

describe('the table of every net', () => {
  it('leads from each exit to the route of that ball in the map of its layer', () => {
    const drawn = new Set(
      escapeSection(context).laterFigures.flatMap(({ chartSvg }) =>
        tagsOf(chartSvg).flatMap(({ attributes }) =>
          attributes.get('class') === 'route' ? [`#${attributes.get('id') ?? ''}`] : [],
        ),
      ),
    )
    expect(exits.length).toBeGreaterThan(100)
    const lost = exits.filter((cells) => !drawn.has(cells[2]?.href ?? ''))
    expect(lost.map((cells) => cells[0]?.text)).toEqual([])
    for (const cells of exits) {
      const ball = cells[1]?.text.split(' ')[1]?.toLowerCase() ?? ''
      expect(cells[2]?.href).toMatch(new RegExp(`-${ball}$`))
    }
  })

  it('says through which side each net leaves, and how long a pair runs apart', () => {
    for (const cells of exits) expect(cells[2]?.text).toMatch(/^L\d+, (top|bottom|left|right)$/)
    const pairs = exits.filter((cells) => cells[0]?.text.startsWith('PCIE') === true)
    expect(pairs.length).toBeGreaterThan(10)
    for (const cells of pairs) expect(cells[4]?.notes).toEqual(['uncoupled 0.400\u00a0mm'])
  })
})
