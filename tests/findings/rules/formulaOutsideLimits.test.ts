import { describe, expect, it } from 'vitest'
import type { Estimate } from '../../../src/impedance/estimate.ts'
import { formulaOutsideLimits } from '../../../src/findings/rules/formulaOutsideLimits.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { modelTable, route } from '../../signal/fixtures.ts'
import { contextOf, detail, only } from '../fixtures.ts'

const base = await exampleBoard()
const routes = [route({ net: 'DQ0', ball: 'A1' })]

function findings(
  value: number,
  band = 0.02,
  stretch: 'neck' | 'main' | null = null,
): ReturnType<typeof formulaOutsideLimits> {
  const violations = value > 2 ? [{ quantity: 'width/height', min: 0.1, max: 2, value }] : []
  const inside: Estimate['violations'] = []
  return formulaOutsideLimits(
    contextOf(base, {
      routes,
      lines: (board, all) => {
        const table = modelTable(board, all)
        const entries = table.entries.map((entry) => {
          if (entry.impedance === null || (stretch !== null && entry.stretch !== stretch)) return entry
          const { chosen } = entry.impedance
          const other = {
            ...chosen,
            violations: inside,
            method: { ...chosen.method, id: 'other', title: 'another form' },
          }
          return {
            ...entry,
            impedance: {
              ...entry.impedance,
              chosen: { ...chosen, violations, claimedError: band },
              others: [other],
            },
          }
        })
        return { ...table, entries }
      },
    }),
  )
}

describe('a formula outside its limits', () => {
  it('is a note with the quantity, its limit and the source', () => {
    const finding = only(findings(3))
    expect(finding.severity).toBe('note')
    expect(finding.measured).toMatchObject({ what: 'width/height', value: 3 })
    expect(finding.limit).toMatchObject({ what: 'at most', value: 2 })
    expect(finding.limitSource).toMatch(/model of the tests/)
  })

  it('is one finding for all lines that it answers for', () => {
    expect(only(findings(3)).subject.alike).toHaveLength(1)
  })

  it('is a warning where its band cannot tell whether the line passes', () => {
    expect(only(findings(3, 0.15, 'main')).severity).toBe('warning')
    expect(only(findings(3, 0.05, 'main')).severity).toBe('note')
  })

  it('names what a form inside its limits says', () => {
    expect(detail(only(findings(3, 0.02, 'main')), /another form/)).toBeCloseTo(50, 9)
  })

  it('is not found inside its limits', () => {
    expect(findings(2)).toEqual([])
  })
})
