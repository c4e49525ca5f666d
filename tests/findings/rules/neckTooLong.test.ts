import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { neckTooLong } from '../../../src/findings/rules/neckTooLong.ts'
import type { Route } from '../../../src/routes/route.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { gaussian, route, um, withClass, withNeckLength } from '../../signal/fixtures.ts'
import { modelVias } from '../../signal/modelVias.ts'
import { contextOf, only, remedyOf } from '../fixtures.ts'

const base = await exampleBoard()
const neck = (net: string, neckLength: number): Route => route({ net, ball: 'A1', neckLength, width: um(80) })
const findings = (board: Board, routes: readonly Route[]): ReturnType<typeof neckTooLong> =>
  neckTooLong(contextOf(board, { routes }))
const fast = withClass(base, 'data', { edge: gaussian(60) })

describe('a neck that is long against its edge', () => {
  const routes = [neck('DQ0', 3e-3), neck('DQ1', 3.5e-3)]

  it('is found beyond the stated share of it, on the longest', () => {
    const finding = only(findings(fast, routes))
    expect(finding.subject).toMatchObject({ name: 'DQ1', alike: ['DQ0'] })
    expect(finding.measured.value).toBeGreaterThan(0.1667)
    expect(finding.limit.value).toBe(0.1667)
  })

  it('is not found on a slow edge or a short neck', () => {
    expect(
      findings(
        base,
        routes.map((each) => withNeckLength(each, 2e-3)),
      ),
    ).toEqual([])
    expect(findings(withClass(base, 'data', { edge: gaussian(400) }), routes)).toEqual([])
  })

  it('is a note while its reflection is small, and as severe as that otherwise', () => {
    expect(only(findings(fast, routes)).severity).toBe('note')
    const step = withClass(fast, 'data', { target: 38, edge: gaussian(50) })
    expect(only(findings(step, routes)).severity).not.toBe('note')
  })

  it('vanishes at the length that it proposes', () => {
    const { value, result } = remedyOf(only(findings(fast, routes)), /shorten/)
    // Down to the micron that is printed: 6.4 fs of 60 ps.
    expect(0.1667 - result.value).toBeGreaterThanOrEqual(0)
    expect(0.1667 - result.value).toBeLessThan(1.1e-4)
    expect(
      findings(
        fast,
        routes.map((each) => withNeckLength(each, value.value)),
      ),
    ).toEqual([])
  })

  it('vanishes on the faster layer that it proposes', () => {
    const dielectric = {
      ...base.stackup,
      layers: base.stackup.layers.map((part) =>
        part.kind === 'dielectric' && /prepreg 3|core 3/.test(part.name)
          ? { ...part, permittivity: { ...part.permittivity, relative: 2.6 } }
          : part,
      ),
    }
    const board = { ...withClass(fast, 'data', { edge: gaussian(100) }), stackup: dielectric }
    const long = [neck('DQ0', 2.8e-3)]
    const { value } = remedyOf(only(findings(board, long)), /leave on/)
    expect(
      findings(
        board,
        long.map((each) => ({ ...each, exitLayer: value.value })),
      ),
    ).toEqual([])
  })
})

describe('a neck with a via that is known', () => {
  const routes = [neck('DQ0', 3.5e-3)]
  const finding = only(neckTooLong(contextOf(fast, { routes, vias: modelVias() })))
  const without = only(findings(fast, routes))

  it('is as long as without it, and is to be made as short', () => {
    expect(finding.measured).toEqual(without.measured)
    expect(remedyOf(finding, /shorten/).value).toEqual(remedyOf(without, /shorten/).value)
    expect(remedyOf(finding, /shorten/).result.value).toBeCloseTo(
      remedyOf(without, /shorten/).result.value,
      9,
    )
  })
})

describe('a neck beyond the guide of its interface', () => {
  const guided = withClass(base, 'data', {
    neckAllowance: { length: 2.5e-3, source: 'the guide' },
    edge: gaussian(300),
  })
  const routes = [neck('DQ0', 2.4e-3), neck('DQ1', 2.6e-3)]

  it('is found with the source of the guide', () => {
    const finding = only(findings(guided, routes))
    expect(finding.subject).toMatchObject({ name: 'DQ1', alike: [] })
    expect(finding.limitSource).toBe('the guide')
    expect(finding.severity).toBe('warning')
  })

  it('is an error if it reflects too much as well', () => {
    const step = withClass(guided, 'data', { target: 30, edge: gaussian(40) })
    const [first] = findings(step, [neck('DQ1', 2.6e-3)])
    expect(first?.severity).toBe('error')
  })

  it('is not found within it', () => {
    expect(findings(guided, routes.slice(0, 1))).toEqual([])
  })

  it('vanishes at the length of the guide, which is proposed if the ring lets it', () => {
    const { value } = remedyOf(only(findings(guided, routes)), /shorten/)
    expect(findings(guided, [neck('DQ1', value.value)])).toEqual([])
    // From the fourth ring it is 3.5 pitches of 0.8 mm to half a pitch outside: 2.8 mm against the guide's 2.5.
    const deep = routes.map((each) => ({ ...each, ring: 4 }))
    expect(only(findings(guided, deep)).remedies).toEqual([])
  })
})
