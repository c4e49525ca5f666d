import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { EscapePlan } from '../../src/escape/escape.ts'
import { planEscape } from '../../src/escape/planEscape.ts'
import type { Route } from '../../src/routes/route.ts'
import { boardOf, packageOf, square, um } from './fixtures.ts'
import { planFaults } from './planChecker.ts'
import { cases } from './randomCases.ts'

const SEED = 20260301

describe('planEscape under the ruler', () => {
  it('never draws a trace too near to anything, or too many through a gap, on any ball map', () => {
    let signals = 0
    let escaped = 0
    fc.assert(
      fc.property(cases, ({ board, pack, technology, supply }) => {
        const plan = planEscape(board, pack, technology)
        escaped += plan.routes.length
        signals += plan.routes.length + plan.unescaped.length
        expect(planFaults(board, pack, plan, supply)).toEqual([])
      }),
      { seed: SEED, numRuns: 300 },
    )
    // An empty plan has no faults either: most balls of these boards do get out.
    expect(escaped).toBeGreaterThan(signals / 2)
  }, 60_000)
})

describe('planFaults', () => {
  const pack = packageOf(square(6, (row, column) => (row === 2 && column > 1 ? 'g' : 's')))
  const board = boardOf(pack)
  const plan = planEscape(board, pack, 'through')
  const faultsOf = (change: (route: Route) => Route | null): string[] => {
    const routes = plan.routes.flatMap((route) => change(route) ?? [])
    return planFaults(board, pack, { ...plan, routes } satisfies EscapePlan, () => ['through'])
  }
  const only =
    (ball: string, change: (route: Route) => Route | null) =>
    (route: Route): Route | null =>
      route.ball === ball ? change(route) : route

  it('finds none in a good plan', () => {
    expect(faultsOf((route) => route)).toEqual([])
  })

  it('finds a ball left out, and one used twice', () => {
    expect(faultsOf(only('0,0', () => null))).toEqual(['0,0 is forgotten'])
    expect(faultsOf(only('0,0', (route) => ({ ...route, ball: '0,1' }))).join()).toContain(
      '0,1 is used twice',
    )
  })

  it('finds a trace that is too wide for its gap', () => {
    const faults = faultsOf(only('1,2', (route) => ({ ...route, width: um(210) })))
    expect(faults.join()).toMatch(/1,2 is .* too near to what stands at/)
    expect(faults.join()).toMatch(/1 traces between .* need/)
  })

  it('finds a path moved sideways, begun elsewhere or cut short', () => {
    const sideways = only('1,2', (route) => ({
      ...route,
      path: route.path.map((point, index) => (index === 0 ? point : { ...point, x: point.x + um(60) })),
    }))
    expect(faultsOf(sideways).join()).toContain('too near')
    const elsewhere = only('1,2', (route) => ({ ...route, path: route.path.slice(1) }))
    expect(faultsOf(elsewhere).join()).toContain('1,2 starts elsewhere')
    const short = only('1,2', (route) => ({ ...route, path: route.path.slice(0, 2) }))
    expect(faultsOf(short).join()).toMatch(/1,2 ends .* from half a pitch outside/)
  })

  it('finds two traces through a gap for one', () => {
    // Both by the channel between columns 2 and 3 of the first row.
    const out = (x: number): Route['path'] => [
      { x: um(x < 0 ? -400 : 400), y: um(1200) },
      { x: um(x), y: um(1600) },
      { x: um(x), y: um(2400) },
    ]
    const faults = faultsOf((route) => {
      if (route.ball === '1,2') return { ...route, path: out(-50) }
      return route.ball === '1,3' ? { ...route, path: out(50) } : route
    })
    expect(faults.join()).toContain('2 traces between 0,2 and 0,3 need')
    expect(faults.join()).toMatch(/1,2 and 1,3 are .* apart/)
  })

  it('finds a via on a layer where a trace passes', () => {
    const drawing = (outer: string): string[] => square(8, (row) => (row === 0 ? outer : 's'))
    const planned = packageOf(drawing('u'), { viaPlacement: 'in pad' })
    const deep = planEscape(boardOf(planned), planned, 'through')
    expect(planFaults(boardOf(planned), planned, deep, () => ['through'])).toEqual([])
    const grounded = packageOf(drawing('g'), { viaPlacement: 'in pad' })
    const supplied = grounded.balls
      .filter(({ use }) => use === 'ground')
      .map(({ name }) => ({ ball: name, via: 'through', endLayer: 12 }))
    expect(
      planFaults(boardOf(grounded), grounded, { ...deep, supplies: supplied }, () => ['through']).join(),
    ).toMatch(/too near to what stands at 0,/)
  })
})
