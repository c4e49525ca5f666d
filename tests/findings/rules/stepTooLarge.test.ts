import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { withThickness } from '../../../src/dielectric/withThickness.ts'
import { stepTooLarge } from '../../../src/findings/rules/stepTooLarge.ts'
import type { Route } from '../../../src/routes/route.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import type { ViaTable } from '../../../src/impedance/viaLine.ts'
import { gaussian, route, um, withClass, withNeckLength } from '../../signal/fixtures.ts'
import { modelVias } from '../../signal/modelVias.ts'
import { contextOf, detail, only, remedyOf } from '../fixtures.ts'

const base = await exampleBoard()
const low = withClass(base, 'data', {
  target: 40,
  sourceImpedance: 40,
  loadImpedance: 40,
  edge: gaussian(60),
})
const neck = (net: string, neckLength: number, change: Partial<Route> = {}): Route =>
  route({ net, ball: 'A1', neckLength, dogBoneLength: 0, width: um(80), ...change })
const lengths = [neck('DQ0', 4.5e-3), neck('DQ1', 5e-3), neck('DQ2', 1e-3)]
const findings = (board: Board, routes: readonly Route[] = lengths): ReturnType<typeof stepTooLarge> =>
  stepTooLarge(contextOf(board, { routes }))

describe('a step that the edge sees', () => {
  const finding = only(findings(low))

  it('is one finding a class, on its worst net, with the others beside it', () => {
    expect(finding.subject).toMatchObject({ kind: 'net', name: 'DQ1', layer: 3, alike: ['DQ0'] })
    expect(finding.measured.value).toBeGreaterThan(0.05)
    expect(finding.limit.value).toBe(0.05)
    expect(detail(finding, /exact/)).toBeCloseTo(finding.measured.value, 9)
    expect(detail(finding, /worse end of the band/)).toBeGreaterThan(finding.measured.value)
  })

  it('is not found where the reflection stays below its limit', () => {
    expect(findings(withClass(low, 'data', { edge: gaussian(300) }))).toEqual([])
    expect(findings(base)).toEqual([])
  })

  it('is a warning above the limit and an error above twice the limit', () => {
    expect(finding.severity).toBe('warning')
    expect(only(findings(withClass(low, 'data', { reflectionLimit: 0.03 }))).severity).toBe('error')
  })

  // AMD UG583 table 2-68: 50 ohm necks of up to 0.55 inch into 39 ohm main routes, a step of 12.4 %.
  it('that the published guide of the interface grants is a note, though far above the limit', () => {
    const guide = withClass(low, 'data', {
      target: 39,
      neckAllowance: { length: 0.55 * 25.4e-3, source: 'AMD UG583 table 2-68' },
      edge: gaussian(40),
    })
    const granted = only(findings(guide, [neck('DQ0', 0.5 * 25.4e-3)]))
    expect(granted.measured.value).toBeGreaterThan(0.1)
    expect(granted.severity).toBe('note')
    const own = withClass(guide, 'data', { reflectionLimit: 0.05 })
    expect(only(findings(own, [neck('DQ0', 0.5 * 25.4e-3)])).severity).toBe('warning')
    expect(only(findings(guide, [neck('DQ0', 0.6 * 25.4e-3)])).severity).toBe('error')
  })

  it('vanishes at the width of the neck that it proposes', () => {
    const { value, result } = remedyOf(finding, /widen the neck/)
    expect(result.value).toBeLessThanOrEqual(0.05)
    expect(
      findings(
        low,
        lengths.map((each) => ({ ...each, width: value.value })),
      ),
    ).toEqual([])
  })

  it('vanishes at the width of the main route that it proposes, which keeps its tolerance', () => {
    const { value } = remedyOf(finding, /the main route, at the expense of the tolerance/)
    const narrower = withClass(low, 'data', {
      main: { width: value.value, gap: null, length: null, coplanarGap: null },
    })
    const context = contextOf(narrower, { routes: lengths })
    expect(stepTooLarge(context)).toEqual([])
    expect(context.lines.main('data', 3)?.impedance?.impedance).toBeLessThanOrEqual(44)
  })

  it('vanishes at the length that it proposes', () => {
    const { value } = remedyOf(finding, /shorten/)
    expect(value.value).toBeGreaterThan(1.2e-3)
    expect(
      findings(
        low,
        lengths.map((each) => withNeckLength(each, Math.min(each.neckLength, value.value))),
      ),
    ).toEqual([])
  })

  it('proposes no length shorter than the way out of the ring of the ball', () => {
    const deep = only(
      findings(
        low,
        lengths.map((each) => ({ ...each, ring: 6 })),
      ),
    )
    expect(deep.remedies.some(({ action }) => /shorten/.test(action))).toBe(false)
  })

  it('vanishes at the thickness that it proposes, the main route solved anew', () => {
    const { value, action } = remedyOf(finding, /solve the main route anew/)
    const name = action.replace(/^.* bring (.*) to$/, '$1')
    expect(findings({ ...low, stackup: withThickness(low.stackup, name, value.value) })).toEqual([])
  })

  it('vanishes on the layer that it proposes', () => {
    // Core 1 thinner and L6 as before: a step on L6 that L3 does not have.
    const board = { ...low, stackup: withThickness(low.stackup, 'core 1', um(60)) }
    const deep = lengths.map((each) => ({ ...each, exitLayer: 6 }))
    const { value } = remedyOf(only(findings(board, deep)), /leave on/)
    expect(
      findings(
        board,
        lengths.map((each) => ({ ...each, exitLayer: value.value })),
      ),
    ).toEqual([])
  })
})

describe('a step that the via makes', () => {
  const fast = withClass(base, 'data', { edge: gaussian(50) })
  const short = [neck('DQ0', 1e-3)]
  const withVias = (vias: ViaTable): ReturnType<typeof stepTooLarge> =>
    stepTooLarge(contextOf(fast, { routes: short, vias }))
  const finding = only(withVias(modelVias()))

  it('is not found where the via is not known', () => {
    expect(findings(fast, short)).toEqual([])
  })

  it('says what hangs, and that the traces alone would pass', () => {
    expect(finding.measured.value).toBeGreaterThan(0.05)
    // 5 ps of 32 ohm hang.
    expect(detail(finding, /hanging of its via/)).toBeCloseTo(5e-12 / 32, 24)
    expect(Math.abs(detail(finding, /without its via/))).toBeLessThan(0.05)
  })

  it('is larger yet at the worse ends of the bands of neck and via', () => {
    expect(detail(finding, /bands of neck and via/)).toBeGreaterThan(finding.measured.value)
  })

  it('vanishes with the via drilled back as far as it proposes', () => {
    const { value, result } = remedyOf(finding, /drill its via back to leave/)
    expect(result.value).toBeLessThanOrEqual(0.05)
    const whole = modelVias()
    expect(withVias({ ...whole, of: (each) => whole.drilledBack(each, value.value) })).toEqual([])
  })

  it('proposes no layer that the via does not reach', () => {
    const layers = (vias: ViaTable): unknown[] =>
      withVias(vias).flatMap(({ remedies }) =>
        remedies.filter(({ action }) => /leave on/.test(action)).map(({ value }) => value.value),
      )
    // The deeper, the less of the model's barrel hangs.
    expect(layers(modelVias())).toEqual([8])
    const upToSix: ViaTable = {
      ...modelVias(),
      of: (each, to = each.exitLayer) => (to > 6 ? null : modelVias().of(each, to)),
    }
    expect(layers(upToSix)).not.toContain(8)
  })
})
