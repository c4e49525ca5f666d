import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { drillTooNear } from '../../../src/findings/rules/drillTooNear.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { um } from '../../signal/fixtures.ts'
import { contextOf, only, remedyOf, withDrill, withFabrication, withPackage, withVia } from '../fixtures.ts'

const base = await exampleBoard()
const findings = (board: Board): ReturnType<typeof drillTooNear> => drillTooNear(contextOf(board))

describe('a drill near copper', () => {
  it('is not found on the example', () => {
    expect(findings(base)).toEqual([])
  })

  it('is found at the plane round a small antipad, and vanishes at the antipad that it proposes', () => {
    const tight = withVia(base, { antipadDiameter: um(480) })
    const finding = only(findings(tight))
    expect(finding.severity).toBe('error')
    expect(finding.measured.value).toBeCloseTo(um((480 - 200) / 2), 9)
    const { value } = remedyOf(finding, /antipad/)
    expect(findings(withVia(base, { antipadDiameter: value.value }))).toEqual([])
    const { value: drill } = remedyOf(finding, /^drill/)
    expect(findings(withDrill(tight, drill.value))).toEqual([])
  })

  it('counts from the bore of a back drill', () => {
    const bored = withVia(base, { backdrill: { diameter: um(400), from: 'bottom', residualStub: um(150) } })
    const finding = only(findings(bored))
    expect(finding.measured.value).toBeCloseTo(um((650 - 400) / 2), 9)
    const { value } = remedyOf(finding, /antipad/)
    expect(findings(withVia(bored, { antipadDiameter: value.value }))).toEqual([])
  })

  it('proposes no antipad that leaves no web of plane', () => {
    const close = withFabrication(base, { drillToCopper: um(280) })
    const plane = findings(close).find(({ measured }) => /plane/.test(measured.what))
    expect(plane?.remedies.some(({ action }) => /antipad/.test(action))).toBe(false)
  })

  it('is found between holes, and vanishes at the drill that it proposes', () => {
    const holes = withFabrication(base, { holeWallToHoleWall: um(610) })
    const finding = only(findings(holes))
    expect(finding.measured.value).toBeCloseTo(um(600), 9)
    expect(findings(withDrill(holes, remedyOf(finding, /^drill/).value.value))).toEqual([])
  })

  it('is found at the lands around a dog-bone’s via, and vanishes at the drill that it proposes', () => {
    const lands = withPackage(base, { landDiameter: um(640) })
    const finding = findings(lands).find(({ measured }) => /lands/.test(measured.what))
    expect(finding?.measured.value).toBeCloseTo(Math.hypot(um(400), um(400)) - um(420), 9)
    if (finding === undefined) throw new Error('not found')
    const drilled = withDrill(lands, remedyOf(finding, /^drill/).value.value)
    expect(findings(drilled).some(({ measured }) => /lands/.test(measured.what))).toBe(false)
  })

  it('is found in a channel that the pads leave open, and vanishes at the drill that it proposes', () => {
    const near = withFabrication(withVia(base, { unconnectedInnerPads: 'kept', antipadDiameter: um(720) }), {
      drillToCopper: um(265),
      traceWidth: { outer: um(80), inner: um(75) },
    })
    const finding = findings(near).find(({ subject }) => subject.kind === 'class')
    expect(finding?.measured.value).toBeCloseTo(um(800 - 200 - 2 * 265 - 80), 9)
    if (finding === undefined) throw new Error('not found')
    const drilled = withDrill(near, remedyOf(finding, /^drill/).value.value)
    expect(findings(drilled).some(({ subject }) => subject.kind === 'class')).toBe(false)
  })

  it('has no remedy where a finer drill would be too deep', () => {
    const deep = withFabrication(base, {
      holeWallToHoleWall: um(610),
      aspectRatio: { drilled: 5.2, microvia: 0.8 },
    })
    expect(only(findings(deep)).remedies).toEqual([])
  })
})
