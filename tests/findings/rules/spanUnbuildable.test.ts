import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { withThickness } from '../../../src/dielectric/withThickness.ts'
import { spanUnbuildable } from '../../../src/findings/rules/spanUnbuildable.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { contextOf, only, remedyOf, withFabrication, withVia } from '../fixtures.ts'

const base = await exampleBoard()
const findings = (board: Board): ReturnType<typeof spanUnbuildable> => spanUnbuildable(contextOf(board))
const stack = (last: number, arrangement: 'stacked' | 'staggered' | null): Board =>
  withVia(base, { kind: 'microvia', firstLayer: 1, lastLayer: last, arrangement })

describe('microvias on each other', () => {
  it('are an error above the number that the fabricator stacks', () => {
    const finding = only(findings(stack(4, 'stacked')))
    expect(finding.severity).toBe('error')
    expect([finding.measured.value, finding.limit.value]).toEqual([3, 2])
  })

  it('are fine up to it, and where the limit is higher', () => {
    expect(findings(stack(3, 'stacked'))).toEqual([])
    expect(findings(withFabrication(stack(4, 'stacked'), { maxStackedMicrovias: 3 }))).toEqual([])
  })

  it('are fine staggered, as it proposes', () => {
    expect(remedyOf(only(findings(stack(4, 'stacked'))), /stagger/).value.value).toBe(1)
    expect(findings(stack(4, 'staggered'))).toEqual([])
  })
})

describe('one microvia', () => {
  // IPC-T-50M: no deeper than 0.25 mm.
  it('is a warning beyond 0.25 mm, here through 40, 75, 15, 100, 15 and 150 um', () => {
    const finding = only(findings(stack(4, null)))
    expect(finding.severity).toBe('warning')
    expect(finding.measured.value).toBeCloseTo(395e-6, 9)
  })

  it('is fine up to it, here through 40, 75, 15 um and a core of 119 against 121 um', () => {
    const thick = (core: number): Board => {
      const board = stack(3, null)
      return { ...board, stackup: withThickness(board.stackup, 'core 1', core) }
    }
    expect(findings(thick(119e-6))).toEqual([])
    expect(findings(thick(121e-6))).toHaveLength(1)
  })
})
