import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { traceOverAntipad } from '../../../src/findings/rules/traceOverAntipad.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { route, um, withClass } from '../../signal/fixtures.ts'
import { contextOf, detail, only, remedyOf, withFabrication, withVia } from '../fixtures.ts'

const base = withClass(await exampleBoard(), 'data', { neck: { width: um(100), gap: um(100) } })
const findings = (board: Board, exitLayer = 3): ReturnType<typeof traceOverAntipad> =>
  traceOverAntipad(
    contextOf(board, { routes: [route({ net: 'DQ0', ball: 'A1', exitLayer, width: um(100) })] }),
  )
/** One trace in 0.8 mm: its edge is 350 um from the centre of the via. */
const alone = withFabrication(base, { drillToCopper: um(220) })

describe('traces over the edge of antipads', () => {
  it('are found with their overlap, the share without plane and the length of it', () => {
    const finding = only(findings(withVia(alone, { antipadDiameter: um(720) })))
    expect(finding.measured.value).toBeCloseTo(um(10), 9)
    expect(detail(finding, /share of the width/)).toBeCloseTo(0.2, 9)
    // Chord of a circle of 360 um radius at 350 um from its centre.
    expect(detail(finding, /length without plane/)).toBeCloseTo(um(2 * Math.sqrt(360 ** 2 - 350 ** 2)), 9)
    expect(finding.severity).toBe('note')
  })

  it('are not found where the plane reaches under the whole trace', () => {
    expect(findings(withVia(alone, { antipadDiameter: um(700) }))).toEqual([])
  })

  it('are a warning where no plane is left under a trace', () => {
    expect(only(findings(withVia(alone, { antipadDiameter: um(805) }))).severity).toBe('warning')
  })

  it('of two in one channel reach farther over than one', () => {
    // Two of 100 um with 100 um between: their outer edges are 250 um from the vias.
    const two = withFabrication(withVia(base, { antipadDiameter: um(600) }), { drillToCopper: um(140) })
    const finding = only(findings(two))
    expect(finding.measured.value).toBeCloseTo(um(50), 9)
    expect(detail(finding, /share of the width/)).toBeCloseTo(0.5, 9)
  })

  it('vanish at the antipad, or at the width, that it proposes', () => {
    const over = withVia(alone, { antipadDiameter: um(710) })
    const finding = only(findings(over))
    expect(findings(withVia(over, { antipadDiameter: remedyOf(finding, /antipad/).value.value }))).toEqual([])
    const { value } = remedyOf(finding, /narrow/)
    expect(findings(withClass(over, 'data', { neck: { width: value.value, gap: um(100) } }))).toEqual([])
  })

  it('are not looked for beside the lands of a dog-bone, where no vias stand', () => {
    const over = withVia(alone, { antipadDiameter: um(720) })
    const surface = { via: null, viaDepth: 0, stubLength: 0, dogBoneLength: 0, exitLayer: 1 }
    const routes = [route({ net: 'DQ0', ball: 'A1', ...surface })]
    expect(traceOverAntipad(contextOf(over, { routes }))).toEqual([])
  })

  it('are not found over planes that the vias do not pass', () => {
    const blind = withVia(alone, { kind: 'blind', firstLayer: 1, lastLayer: 2, antipadDiameter: um(720) })
    const routes = [route({ net: 'DQ0', ball: 'A1', via: null, width: um(100) })]
    expect(traceOverAntipad(contextOf(blind, { routes }))).toEqual([])
  })
})
