import { describe, expect, it } from 'vitest'
import type { ClaimVerdict, PackageEscape } from '../../../src/escape/escape.ts'
import { claimRefuted } from '../../../src/findings/rules/claimRefuted.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { contextOf, only } from '../fixtures.ts'

const base = await exampleBoard()
const context = contextOf(base)
const claim: ClaimVerdict = {
  technology: 'through',
  claimed: 2,
  source: 'a colleague',
  computed: 4,
  verdict: 'refuted',
  reason: 'the plan needs four',
}
const withClaim = (change: Partial<ClaimVerdict>): PackageEscape[] =>
  context.escapes.map((escape) => ({ ...escape, claims: [{ ...claim, ...change }] }))

describe('a claimed layer count', () => {
  it('is a warning where the plan refutes it, with whose claim it was', () => {
    const finding = only(claimRefuted({ ...context, escapes: withClaim({}) }))
    expect(finding).toMatchObject({ severity: 'warning', limitSource: 'a colleague' })
    expect([finding.measured.value, finding.limit.value]).toEqual([4, 2])
    expect(finding.details.map(({ what }) => what)).toEqual(['the plan needs four'])
  })

  it('is not found where it is confirmed, as by the plan of the example', () => {
    expect(claimRefuted({ ...context, escapes: withClaim({ verdict: 'confirmed' }) })).toEqual([])
    expect(context.escapes[0]?.claims).toHaveLength(1)
    expect(claimRefuted(context)).toEqual([])
  })

  it('says so where no number was computed', () => {
    const finding = only(claimRefuted({ ...context, escapes: withClaim({ computed: null }) }))
    expect(finding.measured.unit).toBe('text')
  })

  it('is told which change confirms it, if planning again does', () => {
    const confirmed = withClaim({ computed: 2, verdict: 'confirmed' })[0]
    if (confirmed === undefined) throw new Error('no escape')
    const tried: (number | null)[] = []
    const rerun = {
      ...context.rerun,
      escape: (board: typeof base) => {
        tried.push(board.classes[0]?.neck.width ?? null)
        return confirmed
      },
    }
    const finding = only(claimRefuted({ ...context, escapes: withClaim({}), rerun }))
    expect(finding.remedies[0]?.action).toMatch(/narrow/)
    expect(finding.remedies[0]?.result.value).toBe(2)
    expect(tried).toContain(80e-6)
  })

  it('is told nothing where planning again does not', () => {
    const refuted = withClaim({})[0]
    if (refuted === undefined) throw new Error('no escape')
    const rerun = { ...context.rerun, escape: () => refuted }
    expect(only(claimRefuted({ ...context, escapes: withClaim({}), rerun })).remedies).toEqual([])
  })
})
