import { describe, expect, it } from 'vitest'
import { reportContext } from '../../../../src/report/viewModel/context.ts'
import { packagesSection } from '../../../../src/report/viewModel/sections/packages.ts'
import { sampleReview } from '../../fixtures/review.ts'
import { processor } from '../../fixtures/board.ts'
import { rows, tableOf } from '../rows.ts'

const context = reportContext(sampleReview)

describe('the channel table', () => {
  it('names every class in one row of the geometry', () => {
    const lines = rows(tableOf(packagesSection(context), 'channels-u1'))
    expect(lines).toHaveLength(3)
    expect(lines[0]).toContain('1 of 0.095 mm, remainder 0.165 mm: memory data')
    expect(rows(tableOf(packagesSection(context), 'channels-u2'))[0]).toContain(
      'none of 0.095 mm, too narrow by 0.005 mm: memory data',
    )
  })

  it('draws the tightest channel of each kind of obstacle', () => {
    expect(packagesSection(context).figures.map((figure) => figure.id)).toEqual([
      'grid-u1',
      'channel-u1-land',
      'channel-u1-via-pad',
      'channel-u1-hole-without-pad',
      'grid-u2',
      'channel-u2-land',
    ])
  })
})

describe('the wishes for an escape', () => {
  const wishing = (escape: Partial<typeof processor.escape>): typeof context => {
    const pack = { ...processor, escape: { ...processor.escape, ...escape } }
    return reportContext({ ...sampleReview, board: { ...sampleReview.board, packages: [pack] } })
  }

  it('stand in a table, with what holds and what is a preference', () => {
    const wishes = wishing({
      layerOrder: [8, 1],
      priorityLayers: 'deep',
      exitSides: new Map([
        ['DQ0', 'left'],
        ['DQ1', 'left'],
        ['CK', 'top'],
      ]),
      apart: [{ groups: ['byte 0', 'byte 1'], gap: 0.3e-3 }],
    })
    expect(rows(tableOf(packagesSection(wishes), 'wishes-table'))).toEqual([
      'U1 | layers | L8, L1 and no others, filled in this order | holds',
      'U1 | planned first | PCIE_PORT0_P and PCIE_PORT0_N | preference',
      'U1 | layers of those nets | tried from the last back | preference',
      'U1 | left side | DQ0 and DQ1 | holds',
      'U1 | top side | CK | holds',
      'U1 | keep-out reference clock | no trace on L3 from -6.900 mm to -5.200 mm across and from 5.400 mm to 6.700 mm upwards | holds',
      'U1 | apart | byte 0 and byte 1: 0.300 mm from trace to trace, edge to edge | holds',
    ])
  })

  it('have no table where the description says nothing', () => {
    const none = wishing({ layerOrder: [], priority: [], keepOuts: [] })
    expect(packagesSection(none).tables.map(({ id }) => id)).not.toContain('wishes-table')
  })

  it('take layers out of the channels, and the table says which', () => {
    const layers = [...new Set(sampleReview.escapes[0]?.channels.map(({ layer }) => layer))]
    expect(layers).toEqual(expect.arrayContaining([1, 3]))
    const table = tableOf(packagesSection(wishing({ layerOrder: [1] })), 'channels-u1')
    expect(new Set(table.rows.map((row) => row.cells[1]?.text))).toEqual(new Set(['L1']))
    expect(table.notes[0]).toMatch(/^Left out: .*L3.*, where the description lets no net of U1 leave\.$/)
  })
})
