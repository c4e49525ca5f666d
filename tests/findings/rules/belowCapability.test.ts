import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { withThickness } from '../../../src/dielectric/withThickness.ts'
import { belowCapability } from '../../../src/findings/rules/belowCapability.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { modelLineOn, route, um, withClass } from '../../signal/fixtures.ts'
import { contextOf, only, remedyOf, withFabrication } from '../fixtures.ts'

const base = await exampleBoard()
const findings = (
  board: Board,
  width = um(80),
  gap: number | null = null,
): ReturnType<typeof belowCapability> =>
  belowCapability(
    contextOf(board, { routes: [route({ net: gap === null ? 'DQ0' : 'DQS_P', ball: 'A1', width, gap })] }),
  )

describe('a line finer than is made', () => {
  it('is an error with what it has and what is made', () => {
    const finding = only(findings(base, um(60)))
    expect(finding.severity).toBe('error')
    expect(finding.measured).toMatchObject({ what: 'trace width of the neck', value: um(60) })
    expect(finding.limit.value).toBe(um(75))
  })

  it('is not found at the limit, nor where a line is not in use', () => {
    expect(findings(base, um(75))).toEqual([])
    expect(belowCapability(contextOf(base, { routes: [] }))).toEqual([])
  })

  it('vanishes at the width that it proposes, and has the impedance that it says', () => {
    const { value, result } = remedyOf(only(findings(base, um(60))), /make the trace width/)
    expect(findings(base, value.value)).toEqual([])
    const line = { layer: 3, width: value.value, gap: null, coplanarGap: null, broadsideLayer: null }
    expect(result.value).toBe(modelLineOn(base.stackup, line).impedance)
  })

  it('proposes the height at which the least width meets the target', () => {
    const high = withClass(base, 'data', { target: 60 })
    const finding = findings(high, um(60)).find(({ measured }) => /main route/.test(measured.what))
    if (finding === undefined) throw new Error('not found')
    const { value, action, result } = remedyOf(finding, /at its limit, bring/)
    // To the micron of thickness that is printed.
    expect(Math.abs(result.value / 60 - 1)).toBeLessThan(0.005)
    const name = action.replace(/^.* bring (.*) to$/, '$1')
    expect(findings({ ...high, stackup: withThickness(high.stackup, name, value.value) }, um(75))).toEqual([])
  })

  it('is found in the gap of a pair, and vanishes at the gap that it proposes', () => {
    const finding = only(findings(base, um(75), um(60)))
    expect(finding.measured.what).toBe('gap inside the pair of the neck')
    expect(findings(base, um(75), remedyOf(finding, /gap/).value.value)).toEqual([])
  })

  it('is found in the gap to ground beside the main route', () => {
    const main = { width: um(80), gap: null, length: null, coplanarGap: um(50) }
    const finding = only(findings(withClass(base, 'data', { main })))
    expect(finding.measured.what).toBe('gap to the ground beside of the main route')
    const wider = { ...main, coplanarGap: remedyOf(finding, /gap/).value.value }
    expect(findings(withClass(base, 'data', { main: wider }))).toEqual([])
  })
})

describe('a dielectric thinner than is made', () => {
  const thin = { ...base, stackup: withThickness(base.stackup, 'core 1', um(45)) }

  const ofLayers = (board: Board): ReturnType<typeof belowCapability> =>
    findings(board).filter(({ subject }) => subject.kind === 'layer')

  it('is found by name, and vanishes at the thickness that it proposes', () => {
    const finding = only(ofLayers(thin))
    expect(finding.subject).toMatchObject({ kind: 'layer', name: 'core 1' })
    const { value, result } = remedyOf(finding, /bring it to/)
    expect(ofLayers({ ...base, stackup: withThickness(base.stackup, 'core 1', value.value) })).toEqual([])
    expect(result.what).toMatch(/impedance of the (neck|main route) of data on layer 3/)
  })

  it('is not found where it is made', () => {
    expect(ofLayers(withFabrication(thin, { minDielectric: um(40) }))).toEqual([])
  })
})
