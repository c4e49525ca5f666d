import { describe, expect, it } from 'vitest'
import { ballOf, packageOf } from '../../../src/board/lookup.ts'
import { drawnEscape } from '../../../src/cli/json/drawnEscape.ts'
import { packageEscape } from '../../../src/cli/json/packageEscape.ts'
import type { Standing } from '../../../src/escape/escape.ts'
import { board } from '../../report/fixtures/board.ts'
import { escapes } from '../../report/fixtures/escapes.ts'

const drawn = escapes.map((escape) => drawnEscape(board, escape))
const routes = drawn.flatMap(({ plans }) => plans.flatMap((plan) => plan.routes))

describe('an escape that a reader can draw', () => {
  it('has the form that is published', () => {
    for (const each of drawn) expect(packageEscape.parse(structuredClone(each))).toEqual(each)
  })

  it('leads every net in copper from its ball to the end of its path, as long as its neck', () => {
    expect(routes.length).toBeGreaterThan(100)
    for (const { ball, ballAt, copper, path, neckLength } of routes) {
      const line = copper.flatMap((stretch) => stretch.path)
      const length = line.slice(1).reduce((sum, point, index) => {
        const before = line[index] ?? point
        return sum + Math.hypot(point.x - before.x, point.y - before.y)
      }, 0)
      expect([ball, line[0], line.at(-1)]).toEqual([ball, ballAt, path.at(-1)])
      expect(Math.abs(length - neckLength)).toBeLessThan(1e-9)
    }
  })

  it('drills every net that leaves below its land, from its dog-bone down past its exit layer', () => {
    const below = routes.filter(({ via }) => via !== null)
    expect(below.length).toBeGreaterThan(10)
    for (const { exitLayer, path, vias } of below) {
      expect(vias[0]?.firstLayer).toBe(1)
      expect(vias.at(-1)?.lastLayer).toBeGreaterThanOrEqual(exitLayer)
      expect(vias.map(({ at }) => at)).toEqual(vias.map(() => path[0]))
    }
    expect(routes.filter(({ via, vias }) => via === null && vias.length > 0)).toEqual([])
  })

  it('follows a chain of holes one below the other', () => {
    const [escape] = escapes
    const plan = escape?.plans[0]
    const route = plan?.routes.find(({ via }) => via !== null)
    if (escape === undefined || plan === undefined || route === undefined) throw new Error('no route')
    const chained = { ...route, via: 'microvia, first to third layer + through via' }
    const [made] = drawnEscape(board, { ...escape, plans: [{ ...plan, routes: [chained] }] }).plans
    expect(
      made?.routes[0]?.vias.map(({ name, firstLayer, lastLayer }) => [name, firstLayer, lastLayer]),
    ).toEqual([
      ['microvia, first to third layer', 1, 3],
      ['through via', 1, 10],
    ])
  })

  it('places the vias of power and ground at the end of their dog-bones, or in their lands', () => {
    const places = drawn.flatMap(({ package: name, plans }) =>
      plans.flatMap(({ supplies, dogBones }) => {
        const ends = new Map(dogBones.map(({ ball, to }) => [ball, to]))
        const pack = packageOf(board, name)
        return supplies.map(({ ball, vias }) => {
          const { x, y } = ballOf(pack, ball)
          return { at: vias[0]?.at, wanted: ends.get(ball) ?? { x, y } }
        })
      }),
    )
    expect(places.length).toBeGreaterThan(100)
    expect(places.map(({ at }) => at)).toEqual(places.map(({ wanted }) => wanted))
  })

  it('refuses a plan with a via that the board does not have', () => {
    const [escape] = escapes
    const [plan] = escape?.plans ?? []
    if (escape === undefined || plan === undefined) throw new Error('no plan')
    const supplies = [{ ball: 'B2', via: 'laser', endLayer: 3 }]
    expect(() => drawnEscape(board, { ...escape, plans: [{ ...plan, supplies }] })).toThrow(RangeError)
  })

  it('says once what stands alike on several layers, and loses nothing of what each layer has', () => {
    const facts = ({ ball, kind, at, diameter, reach }: Standing): string =>
      [ball, kind, at.x, at.y, diameter, reach].join(' ')
    for (const [index, { plans }] of drawn.entries()) {
      for (const [place, { standing, layers }] of plans.entries()) {
        const planned = escapes[index]?.plans[place]
        const once = standing.map(facts)
        expect(new Set(once).size).toBe(once.length)
        const back = layers.map(({ layer }) =>
          standing.filter((each) => each.layers.includes(layer)).map(facts),
        )
        expect(back.map((each) => each.toSorted())).toEqual(
          planned?.layers.map((layer) => layer.standing.map(facts).toSorted()),
        )
      }
    }
    expect(drawn.flatMap(({ plans }) => plans.flatMap((plan) => plan.standing)).length).toBeGreaterThan(100)
  })
})
