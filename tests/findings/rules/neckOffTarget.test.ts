import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { neckOffTarget } from '../../../src/findings/rules/neckOffTarget.ts'
import { withThickness } from '../../../src/dielectric/withThickness.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { gaussian, modelTable, route, um, withClass } from '../../signal/fixtures.ts'
import { contextOf, detail, only, remedyOf } from '../fixtures.ts'

const base = await exampleBoard()
// In the model 80 um on L3 have 49 ohm: off a target of 42 by more than a tenth.
const low = withClass(base, 'data', { target: 42, sourceImpedance: 42, loadImpedance: 42 })
const routes = ['DQ0', 'DQ1'].map((net) => route({ net, ball: 'A1', neckLength: 3e-3, dogBoneLength: 0 }))

const findings = (board: Board, width = um(80)): ReturnType<typeof neckOffTarget> =>
  neckOffTarget(contextOf(board, { routes: routes.map((each) => ({ ...each, width })) }))

describe('a neck off its target', () => {
  it('is found beyond the tolerance of its class, with the end that it has left', () => {
    const finding = only(findings(low))
    expect(finding.code).toBe('neck-off-target')
    expect(finding.subject).toMatchObject({ kind: 'class', name: 'data', layer: 3, package: 'U1' })
    expect(finding.measured.value).toBeGreaterThan(46.2)
    expect(finding.measured.band).toBe(0.02)
    expect(finding.limit.value).toBeCloseTo(46.2, 9)
    expect(detail(finding, /nets that use it/)).toBe(2)
  })

  it('is not found inside it', () => {
    expect(findings(base)).toEqual([])
  })

  it('is a note while its reflection is small', () => {
    expect(only(findings(low)).severity).toBe('note')
  })

  it('is a warning, then an error, as a faster edge sees more of it', () => {
    const at = (rise: number): string =>
      only(findings(withClass(low, 'data', { edge: gaussian(rise) }))).severity
    expect(at(30)).toBe('warning')
    const strict = withClass(low, 'data', { edge: gaussian(20), reflectionLimit: 0.03 })
    expect(only(findings(strict)).severity).toBe('error')
  })

  it('is a note again where the published allowance grants its length', () => {
    const granted = { length: 10e-3, source: 'a guide' }
    const fast = withClass(low, 'data', { edge: gaussian(30), neckAllowance: granted })
    expect(only(findings(fast)).severity).toBe('note')
    const exceeded = withClass(fast, 'data', { neckAllowance: { ...granted, length: 2e-3 } })
    expect(only(findings(exceeded)).severity).toBe('warning')
  })

  it('vanishes at the width that it proposes', () => {
    const remedy = remedyOf(only(findings(low)), /widen the neck/)
    expect(Math.abs(remedy.result.value / 42 - 1)).toBeLessThan(0.005)
    expect(findings(low, remedy.value.value)).toEqual([])
  })

  it('vanishes at the dielectric thickness that it proposes', () => {
    const remedy = remedyOf(only(findings(low)), /^bring (core|prepreg)/)
    const name = remedy.action.replace(/^bring (.*) to$/, '$1')
    expect(findings({ ...low, stackup: withThickness(low.stackup, name, remedy.value.value) })).toEqual([])
  })

  it('proposes a layer where the same neck is on target, and vanishes there', () => {
    // With core 3 at 60 um the neck has 41 ohm on L6.
    const surface = { ...low, stackup: withThickness(low.stackup, 'core 3', um(60)) }
    const remedy = remedyOf(only(findings(surface)), /run the neck on/)
    const moved = routes.map((each) => ({ ...each, exitLayer: remedy.value.value }))
    expect(neckOffTarget(contextOf(surface, { routes: moved }))).toEqual([])
  })

  it('proposes no width that the channel does not take', () => {
    // 0.3 mm of channel are too few for the width that 18 ohm asks for.
    const wide = withClass(base, 'data', { target: 18 })
    expect(only(findings(wide)).remedies.some(({ action }) => /widen/.test(action))).toBe(false)
  })

  it('is an error where the stackup refuses the line', () => {
    const refused = only(
      neckOffTarget(
        contextOf(base, {
          routes,
          lines: (board, all) => {
            const table = modelTable(board, all)
            const entries = table.entries.map((entry) =>
              entry.stretch === 'neck' ? { ...entry, impedance: null, refusal: 'it would etch away' } : entry,
            )
            return { ...table, entries }
          },
        }),
      ),
    )
    expect(refused.severity).toBe('error')
    expect(refused.measured).toMatchObject({ what: 'it would etch away', unit: 'text' })
  })
})
