import { describe, expect, it } from 'vitest'
import { reportContext } from '../../../../src/report/viewModel/context.ts'
import { discontinuitiesSection } from '../../../../src/report/viewModel/sections/discontinuities.ts'
import { sampleReview } from '../../fixtures/review.ts'
import { rows, tableOf } from '../rows.ts'

const context = reportContext(sampleReview)

describe('the table of discontinuities', () => {
  const section = discontinuitiesSection(context)
  const table = tableOf(section, 'discontinuities-table')

  it('keeps electrical length, reflection and allowance apart, each with its own verdict', () => {
    expect(table.columns.slice(4).map((column) => column.title)).toEqual([
      'Electrical length',
      'Reflection',
      'Published allowance',
    ])
    for (const row of table.rows)
      expect(row.cells.slice(4, 6).every((cell) => cell.verdict !== null)).toBe(true)
  })

  it('shows both the exact and the short-section reflection', () => {
    for (const line of rows(table))
      expect(line).toMatch(
        /[+-][\d.]+ % between main routes .*short-section theory [+-][\d.]+ % .*[+-][\d.]+ % before [\d.]+ ohm, short-section [+-][\d.]+ %/,
      )
  })

  it('lists classes as they are described, and inside a class packages and layers', () => {
    const classes = sampleReview.board.classes.map(({ name }) => name)
    const keys = rows(table).map((line) => {
      const [, name = '', pack = '', layer = ''] = /^(.*), (U\d) on L(\d+) /.exec(line) ?? []
      return classes.indexOf(name) * 1e4 + Number(pack.slice(1)) * 100 + Number(layer)
    })
    expect(keys.every(Number.isFinite)).toBe(true)
    expect(new Set(keys.map((key) => Math.floor(key / 1e4))).size).toBeGreaterThan(1)
    expect(keys).toEqual([...keys].sort((a, b) => a - b))
  })

  it('counts every neck once', () => {
    const counted = rows(table).reduce((sum, line) => sum + Number(/(\d+) necks?,/.exec(line)?.[1] ?? NaN), 0)
    expect(counted).toBe(sampleReview.signals.reduce((sum, signal) => sum + signal.ends.length, 0))
  })

  it('never puts a long neck and a short one, or a passing and a failing one, in one row', () => {
    const long = rows(table).filter((line) => line.includes('electrically long'))
    const short = rows(table).filter((line) => line.includes('/ short /'))
    expect(long.length + short.length).toBe(table.rows.length)
    expect(long.length).toBeGreaterThan(0)
    expect(short.length).toBeGreaterThan(0)
  })

  it('puts necks that differ by what stands beside them into one row, with their range and the worst of them', () => {
    const signals = sampleReview.signals.map((signal, index) => ({
      ...signal,
      ends: signal.ends.map((end) => ({ ...end, neckImpedance: end.neckImpedance * (1 + 0.001 * index) })),
    }))
    const varied = tableOf(
      discontinuitiesSection(reportContext({ ...sampleReview, signals })),
      'discontinuities-table',
    )
    expect(varied.rows).toHaveLength(table.rows.length)
    expect(rows(varied).some((line) => /[\d.]+–[\d.]+ ohm to [\d.]+ ohm .*largest step/.test(line))).toBe(
      true,
    )
  })

  it('says once where limits and allowances come from', () => {
    expect(table.notes.join(' ').replaceAll('\u00a0', ' ')).toContain(
      'Published allowances: 12.700 mm, Invented memory guide, Table 3.',
    )
  })
})
