import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { antipadsMerge } from '../../../src/findings/rules/antipadsMerge.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { um } from '../../signal/fixtures.ts'
import { contextOf, only, remedyOf, withDrill, withFabrication, withVia } from '../fixtures.ts'

const base = await exampleBoard()
const findings = (board: Board): ReturnType<typeof antipadsMerge> => antipadsMerge(contextOf(board))
const antipad = (diameter: number): Board => withVia(base, { antipadDiameter: um(diameter) })

describe('the web of plane between antipads', () => {
  it('is a warning below what can be etched, and an error where there is none', () => {
    const finding = only(findings(antipad(740)))
    expect(finding.severity).toBe('warning')
    expect(finding.measured.value).toBeCloseTo(um(60), 9)
    expect(only(findings(antipad(800))).severity).toBe('error')
    expect(only(findings(antipad(820))).measured.value).toBeCloseTo(um(-20), 9)
  })

  it('is fine as wide as a trace', () => {
    expect(findings(antipad(724.9))).toEqual([])
  })

  it('widens to the limit at the antipad that it proposes', () => {
    const { value } = remedyOf(only(findings(antipad(740))), /antipad/)
    expect(findings(withVia(base, { antipadDiameter: value.value }))).toEqual([])
  })

  it('asks for a finer drill where the plane would come too near to the present one', () => {
    const close = withFabrication(antipad(740), { drillToCopper: um(270) })
    const finding = only(findings(close))
    expect(finding.remedies.some(({ action }) => /make the antipad/.test(action))).toBe(false)
    const { value } = remedyOf(finding, /drill/)
    const both = withDrill(withVia(close, { antipadDiameter: value.value + 2 * um(270) }), value.value)
    expect(findings(both)).toEqual([])
  })

  it('is nothing to a via that passes no plane', () => {
    expect(findings(withVia(antipad(820), { kind: 'blind', firstLayer: 1, lastLayer: 2 }))).toEqual([])
  })
})
