import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { withThickness } from '../../../src/dielectric/withThickness.ts'
import { mainOffTarget } from '../../../src/findings/rules/mainOffTarget.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { modelLineOn, route, um, withClass } from '../../signal/fixtures.ts'
import { contextOf, only, remedyOf } from '../fixtures.ts'

const base = await exampleBoard()
const main = (width: number | null): Partial<Board['classes'][number]> => ({
  main: { width, gap: null, length: null, coplanarGap: null },
})
const findings = (board: Board, exitLayer = 3): ReturnType<typeof mainOffTarget> =>
  mainOffTarget(
    contextOf(board, {
      routes: [
        route({ net: 'DQ0', ball: 'A1', exitLayer, ...(exitLayer === 1 ? { via: null, viaDepth: 0 } : {}) }),
      ],
    }),
  )

describe('a main route off its target', () => {
  const wide = withClass(base, 'data', main(um(150)))

  it('is an error beyond the tolerance of its class', () => {
    const finding = only(findings(wide))
    expect(finding.severity).toBe('error')
    expect(finding.limit).toMatchObject({ what: 'at least', value: 45 })
    expect(finding.measured.value).toBeLessThan(45)
  })

  it('is a warning where the band of the formula, here 2 %, reaches back into the tolerance', () => {
    const { impedance } = modelLineOn(base.stackup, {
      layer: 3,
      width: um(95),
      gap: null,
      coplanarGap: null,
      broadsideLayer: null,
    })
    const at = (tolerance: number): string =>
      only(findings(withClass(base, 'data', { ...main(um(95)), target: 50, tolerance }))).severity
    const miss = Math.abs(impedance / 50 - 1)
    expect(at(miss - 0.01)).toBe('warning')
    expect(at(miss - 0.03)).toBe('error')
  })

  it('is not found when it was solved for its target, nor inside its tolerance', () => {
    expect(findings(base)).toEqual([])
    expect(findings(withClass(base, 'data', main(um(85))))).toEqual([])
  })

  it('vanishes at the width that it proposes', () => {
    const remedy = remedyOf(only(findings(wide)), /narrow the main route/)
    const line = { layer: 3, width: remedy.value.value, gap: null, coplanarGap: null, broadsideLayer: null }
    expect(remedy.result.value).toBe(modelLineOn(base.stackup, line).impedance)
    expect(Math.abs(remedy.result.value / 50 - 1)).toBeLessThan(0.005)
    expect(findings(withClass(base, 'data', main(remedy.value.value)))).toEqual([])
  })

  it('vanishes at the thickness that it proposes', () => {
    const remedy = remedyOf(only(findings(wide)), /^bring/)
    const name = remedy.action.replace(/^bring (.*) to$/, '$1')
    expect(findings({ ...wide, stackup: withThickness(wide.stackup, name, remedy.value.value) })).toEqual([])
  })

  it('that no width brings to its target shows how far the narrowest stays off, and the height that would do', () => {
    const high = withClass(base, 'data', { target: 95 })
    const finding = only(findings(high, 1))
    expect(finding.measured.value).toBeLessThan(95 * 0.9)
    expect(finding.details.some(({ what }) => /narrowest/.test(what))).toBe(true)
    const remedy = remedyOf(finding, /bring/)
    expect(Math.abs(remedy.result.value / 95 - 1)).toBeLessThan(0.005)
    const name = remedy.action.replace(/^with this width, bring (.*) to$/, '$1')
    expect(findings({ ...high, stackup: withThickness(high.stackup, name, remedy.value.value) }, 1)).toEqual(
      [],
    )
  })
})
