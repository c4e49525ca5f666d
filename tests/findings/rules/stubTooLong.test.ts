import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { stubTooLong } from '../../../src/findings/rules/stubTooLong.ts'
import { viaTravel } from '../../../src/routes/viaTravel.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { route, um, withClass } from '../../signal/fixtures.ts'
import { contextOf, only, remedyOf, throughVia } from '../fixtures.ts'

const base = await exampleBoard()
const rated = (gigabits: number): Board =>
  withClass(base, 'data', { dataRate: { bitRate: gigabits * 1e9, levels: 2, nyquist: (gigabits / 2) * 1e9 } })
const on = (exitLayer: number): ReturnType<typeof route> => {
  const { depth, stub } = viaTravel(base.stackup, throughVia(base), 1, exitLayer)
  return route({ net: 'DQ0', ball: 'A1', exitLayer, viaDepth: depth, stubLength: stub })
}
const findings = (board: Board, exitLayer = 3): ReturnType<typeof stubTooLong> =>
  stubTooLong(contextOf(board, { routes: [on(exitLayer), { ...on(exitLayer), net: 'DQ1' }] }))

describe('a stub', () => {
  // D. Telian, Signal Integrity Journal 2962, quoting E. Bogatin: 0.025 inch at 12 Gb/s.
  it('is found above 0.025 inch at 12 Gb/s, one finding for all nets of the layer', () => {
    const finding = only(findings(rated(12)))
    expect(finding.measured.value).toBeCloseTo(on(3).stubLength, 12)
    expect(Math.abs(finding.limit.value / 25.4e-3 - 0.025)).toBeLessThan(0.0005)
    expect(finding.subject).toMatchObject({ name: 'DQ0', alike: ['DQ1'] })
    expect(finding.severity).toBe('warning')
  })

  it('is not found at a slow rate, nor without one', () => {
    expect(findings(rated(3))).toEqual([])
    expect(findings(base)).toEqual([])
  })

  it('is an error where its null lies at or below Nyquist', () => {
    expect(only(findings(rated(120))).severity).toBe('error')
  })

  it('vanishes on the layer that it proposes, whose stub is as it says', () => {
    const { value, result } = remedyOf(only(findings(rated(12))), /leave on/)
    expect(value.value).toBe(6)
    expect(result.value).toBeCloseTo(on(6).stubLength, 12)
    expect(findings(rated(12), value.value)).toEqual([])
  })

  it('vanishes drilled back to what it proposes', () => {
    const { value } = remedyOf(only(findings(rated(12))), /drill back/)
    const routes = [{ ...on(3), stubLength: value.value }]
    expect(stubTooLong(contextOf(rated(12), { routes }))).toEqual([])
    expect(value.value).toBeLessThan(um(650))
  })
})
