import { describe, expect, it } from 'vitest'
import { reportContext } from '../../../../src/report/viewModel/context.ts'
import { impedanceSection, unusedLinesTable } from '../../../../src/report/viewModel/sections/impedance.ts'
import { sampleReview } from '../../fixtures/review.ts'
import { rows, tableOf } from '../rows.ts'

const context = reportContext(sampleReview)

describe('the impedance table', () => {
  const lines = rows(tableOf(impedanceSection(context), 'impedance-table'))

  it('marks necks as not controlled and off every coupon, and main routes as on one', () => {
    const necks = lines.filter((line) => line.includes('neck at'))
    const mains = lines.filter((line) => line.includes('main route'))
    expect(necks.length + mains.length).toBe(lines.length)
    for (const line of necks) expect(line).toMatch(/not controlled.*\| no$/)
    for (const line of mains) expect(line).toMatch(/\| yes$/)
  })

  it('lists necks by package and then main routes, each from the top layer down', () => {
    const places = lines.map((line) => {
      const [layer = '', cell = ''] = line.split(' | ')
      return { group: /neck at \w+/.exec(cell)?.[0] ?? 'main route', layer: Number(layer.slice(1)) }
    })
    const groups = places.map(({ group }) => group)
    expect(groups.filter((group, index) => group !== groups[index - 1])).toEqual([...new Set(groups)])
    expect(groups.at(-1)).toBe('main route')
    for (const group of new Set(groups)) {
      const layers = places.filter((place) => place.group === group).map(({ layer }) => layer)
      expect(layers).toEqual([...layers].sort((a, b) => a - b))
    }
  })

  it('gives target, references with nets, starting width, impedance with band, and method', () => {
    expect(lines.find((line) => line.startsWith('L3 | memory data / not controlled / neck at U1'))).toBe(
      'L3 | memory data / not controlled / neck at U1 | single | 40.0 ohm ± 10 % | L2 (GND), L4 (GND) | 0.095 mm / widest that fits the channel | – | 47.9 ohm ± 1.0 % / 19.8 % above target / Stripline of finite thickness, Wheeler | no',
    )
    expect(
      tableOf(impedanceSection(context), 'impedance-table').columns.map((column) => column.title),
    ).toContain('Width, starting value')
  })

  it('refuses a main route off its target, and only watches a neck', () => {
    const tones = tableOf(impedanceSection(context), 'impedance-table').rows.flatMap((row) =>
      row.cells.flatMap((cell) => cell.verdict?.tone ?? []),
    )
    expect(new Set(tones)).toEqual(new Set(['watch', 'pass']))
    const off = {
      ...sampleReview,
      board: {
        ...sampleReview.board,
        classes: sampleReview.board.classes.map((each) => ({ ...each, target: 60 })),
      },
    }
    const verdicts = rows(tableOf(impedanceSection(reportContext(off)), 'impedance-table'))
    expect(verdicts.filter((line) => line.includes('main route')).join()).toContain('33.3 % below target')
  })

  it('passes only what lies inside the tolerance with its whole band', () => {
    // 92.2 ohm is 8.5 % above 85 ohm: inside 10 % with the 1 % band of the formula, and not inside 9 %.
    const at = (tolerance: number): string => {
      const classes = sampleReview.board.classes.map((each) => ({ ...each, tolerance }))
      return (
        rows(
          tableOf(
            impedanceSection(reportContext({ ...sampleReview, board: { ...sampleReview.board, classes } })),
            'impedance-table',
          ),
        ).find((line) => line.includes('neck at U1') && line.includes('92.2 ohm')) ?? ''
      )
    }
    expect(at(0.1)).toContain('8.5 % above target / Stripline')
    expect(at(0.09)).toContain('8.5 % above target, limit within the band')
  })

  it('leaves lines that no route uses to the appendix, with the reason where there is none', () => {
    expect(rows(unusedLinesTable(context)).join()).toContain(
      'no width between 0.050 mm and 1.000 mm reaches 40.0 ohm',
    )
    expect(lines.join()).not.toContain('L10')
  })
})
