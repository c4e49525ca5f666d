import { describe, expect, it } from 'vitest'
import { reportContext } from '../../../../src/report/viewModel/context.ts'
import type { Section } from '../../../../src/report/viewModel/section.ts'
import { couplingSection } from '../../../../src/report/viewModel/sections/coupling.ts'
import { couplings } from '../../fixtures/couplings.ts'
import { sampleReview } from '../../fixtures/review.ts'

const sectionOf = (shown: typeof couplings): Section =>
  couplingSection(reportContext({ ...sampleReview, couplings: shown }))
const rowsOf = (section: Section): string[][] =>
  section.tables.flatMap(({ rows }) =>
    rows.map(({ cells }) =>
      cells.map(({ text, notes, verdict }) =>
        [text, ...notes, verdict?.text ?? ''].join(' / ').replaceAll('\u00a0', ' '),
      ),
    ),
  )

describe('the section on traces beside necks', () => {
  it('has a row for each class, package and layer, the nearest to its limit first, with the worst net', () => {
    const rows = rowsOf(sectionOf([...couplings].reverse()))
    expect(rows).toHaveLength(2)
    expect(rows[0]?.[0]).toMatch(
      /memory data, U1 on .*2 necks, 1 above the limit.*worst: DDR4_CHANNEL_A_BYTE0_DQ32/,
    )
    expect(rows[0]?.[1]).toMatch(/DQ33.*edge 80.0 ps.*sends 3.7 %, one of 2 neighbours/)
    expect(rows[0]?.[2]).toMatch(/gap 0.096 mm.*over 2.500 mm/)
    expect(rows[0]?.[3]).toMatch(/0.082/)
    expect(rows[0]?.[4]).toMatch(/6.2 %.*limit 5.0 %.*over the limit/)
    expect(rows[0]?.[6]).toMatch(/with 61.2 ohm.*against 44.5 ohm/)
    expect(rows[1]?.[0]).toMatch(/PCIE_PORT0_P and PCIE_PORT0_N/)
    expect(rows[1]?.[4]).toMatch(/within the limit/)
  })

  it('leaves out what is below a tenth of the limit, and counts it', () => {
    const quiet = couplings.map((each) => ({ ...each, nearEnd: each.nearEnd / 20 }))
    expect(rowsOf(sectionOf(quiet))).toHaveLength(1)
    expect(sectionOf(quiet).tables[0]?.notes[0]).toMatch(/1.row with less than a tenth/)
    expect(sectionOf(couplings).tables[0]?.notes.join(' ')).not.toMatch(/less than a tenth/)
  })

  it('names the traces that it cannot count', () => {
    const unsolved = couplings.map((each) => ({ ...each, unsolved: ['DDR4_CHANNEL_A_BYTE5_DQ37'] }))
    expect(sectionOf(unsolved).tables[0]?.notes.join(' ')).toMatch(/Not counted.*DDR4_CHANNEL_A_BYTE5_DQ37\./)
  })

  it('says so where nothing is beside any neck, and states that neighbours switch together', () => {
    const empty = sectionOf([])
    expect(empty.tables[0]).toMatchObject({ hasRows: false, notes: [] })
    expect(empty.tables[0]?.whenEmpty).toMatch(/No neck/)
    expect(empty.paragraphs.join(' ')).toMatch(/worst instant/)
  })
})
