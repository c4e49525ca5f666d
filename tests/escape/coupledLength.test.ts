import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Board } from '../../src/board/board.ts'
import type { EscapePlan } from '../../src/escape/escape.ts'
import { planEscape } from '../../src/escape/planEscape.ts'
import type { Route } from '../../src/routes/route.ts'
import { boardOf, fabrication, netClass, packageOf, pairOf, um } from './fixtures.ts'
import { randomMaps } from './randomMaps.ts'

type Path = Route['path']

const STEP = um(2)

/**
 * Length of a path of which each point has the mate at its distance or up to a share more, by points 2 um apart:
 * nothing is known here of rails, joins and corners.
 */
function lengthBeside(path: Path, mate: Path, apart: number, more: number): number {
  let beside = 0
  for (const [index, to] of path.entries()) {
    const from = path[index - 1]
    if (from === undefined) continue
    const length = Math.hypot(to.x - from.x, to.y - from.y)
    const pieces = Math.max(1, Math.ceil(length / STEP))
    for (let piece = 0; piece < pieces; piece += 1) {
      const share = (piece + 0.5) / pieces
      const distance = distanceTo(mate, from.x + share * (to.x - from.x), from.y + share * (to.y - from.y))
      if (distance > 0.999 * apart && distance < (1 + more) * apart) beside += length / pieces
    }
  }
  return beside
}

function distanceTo(path: Path, x: number, y: number): number {
  return path.reduce((least, to, index) => {
    const from = path[index - 1] ?? to
    const [dx, dy] = [to.x - from.x, to.y - from.y]
    const squared = dx * dx + dy * dy
    const along = squared === 0 ? 0 : ((x - from.x) * dx + (y - from.y) * dy) / squared
    const share = Math.min(1, Math.max(0, along))
    return Math.min(least, Math.hypot(x - from.x - share * dx, y - from.y - share * dy))
  }, Infinity)
}

function lengthOf(path: Path): number {
  return path.reduce((sum, to, index) => {
    const from = path[index - 1] ?? to
    return sum + Math.hypot(to.x - from.x, to.y - from.y)
  }, 0)
}

/** Each trace that states a gap, with its mate. */
function coupledPairs(board: Board, plan: EscapePlan): [Route, Route][] {
  const partners = new Map(board.nets.map(({ name, partner }) => [name, partner]))
  return plan.routes
    .filter(({ gap }) => gap !== null)
    .map((route) => {
      const mate = plan.routes.find(({ net }) => net === partners.get(route.net))
      if (mate === undefined) throw new RangeError(`${route.net} states a gap, but its partner stays inside`)
      return [route, mate]
    })
}
const statedLength = (route: Route): number => route.neckLength - (route.uncoupledLength ?? NaN)
const apartOf = ({ width, gap }: Route): number => width + (gap ?? NaN)

/** Outside a square corner the mate is up to √2 times as far, and is neared at any slope: this counts too much. */
const WITH_CORNERS = 1.01 * Math.SQRT2 - 1
/** This counts no corners, and of where the two part no more than √(2 · 0.001) of their distance. */
const STRAIGHT = 0.001

/** Sharpest corner of a path, as the cosine of its turn: 0 for a square one, −1 for one that doubles back. */
function sharpest(path: Path): number {
  return path.reduce((least, corner, index) => {
    const [before, after] = [path[index - 1], path[index + 1]]
    if (before === undefined || after === undefined) return least
    const [ax, ay, bx, by] = [
      corner.x - before.x,
      corner.y - before.y,
      after.x - corner.x,
      after.y - corner.y,
    ]
    return Math.min(least, (ax * bx + ay * by) / (Math.hypot(ax, ay) * Math.hypot(bx, by)))
  }, 1)
}

function coupledFaults([route, mate]: readonly [Route, Route]): string[] {
  const [stated, apart] = [statedLength(route), apartOf(route)]
  const most = lengthBeside(route.path, mate.path, apart, WITH_CORNERS)
  const least = lengthBeside(route.path, mate.path, apart, STRAIGHT)
  const told = `${route.net} says ${stated / um(1)} um beside ${mate.net}`
  return [
    ...(stated > most + STEP ? [`${told}, but no more than ${most / um(1)} um run there`] : []),
    ...(stated < least - Math.sqrt(2 * STRAIGHT) * apart - STEP
      ? [`${told}, but ${least / um(1)} um run there`]
      : []),
    ...(2 * stated < lengthOf(route.path) - STEP
      ? [`${told}, less than half of its ${lengthOf(route.path) / um(1)} um`]
      : []),
    ...(sharpest(route.path) < -1e-3 ? [`${route.net} turns back`] : []),
  ]
}

describe('the coupled length of a pair', () => {
  const classes = [netClass('pair', { structure: 'pair', neck: { width: um(60), gap: um(60) } })]
  const roomy = fabrication({
    traceGap: { outer: um(80), inner: um(80) },
    traceToPad: { outer: um(60), inner: um(60) },
    drillToCopper: um(100),
  })
  const planOf = (drawing: readonly string[], one: string, other: string): [Board, EscapePlan] => {
    const pack = packageOf(drawing)
    const board = boardOf(pack, { classes, nets: pairOf(one, other), fabrication: roomy })
    return [board, planEscape(board, pack, 'through')]
  }

  it('is what of each trace has the other at its width and gap', () => {
    const [board, plan] = planOf(['uuuuuu', 'uuuuuu', 'uussuu', 'uuuuuu', 'uuuuuu', 'uuuuuu'], '2,2', '2,3')
    const pairs = coupledPairs(board, plan)
    expect(pairs).toHaveLength(2)
    expect(pairs.flatMap(coupledFaults)).toEqual([])
    for (const [route] of pairs) {
      // From row 2 it is 2000 um to the end of the neck. The channel is half a pitch beside: led there within a pitch.
      expect(statedLength(route)).toBeGreaterThan(um(1200))
      expect(statedLength(route)).toBeLessThanOrEqual(um(2000))
    }
  })

  it.each([
    ['on opposite sides', ['uuuuuu', 'suuuus', 'uuuuuu', 'uuuuuu'], '1,0', '1,5'],
    ['on the rim, five pitches apart', ['suuuus', 'uuuuuu', 'uuuuuu', 'uuuuuu'], '0,0', '0,5'],
    ['on the rim and behind it', ['uuuuuu', 'uuuuuu', 'ssuuuu', 'uuuuuu', 'uuuuuu'], '2,0', '2,1'],
  ])(
    'is none where the balls lie %s: they leave in two lanes, without a gap',
    (_where, drawing, one, other) => {
      const [, { routes, unescaped }] = planOf(drawing, one, other)
      expect(unescaped).toEqual([])
      expect(routes.map(({ gap, exitLayer }) => [gap, exitLayer])).toEqual([
        [null, 1],
        [null, 1],
      ])
      for (const route of routes) expect(statedLength(route)).toBe(0)
    },
  )

  it('is measured to be what is said, and at least half of each trace, on random ball maps', () => {
    const paired = fc
      .sample(randomMaps, { seed: 20261126, numRuns: 300 })
      .filter(({ board }) => board.nets.some(({ partner }) => partner !== null))
    const pairs = paired.flatMap(({ board, pack, technology }) =>
      coupledPairs(board, planEscape(board, pack, technology)),
    )
    expect(pairs.length).toBeGreaterThan(200)
    expect(pairs.flatMap(coupledFaults)).toEqual([])
  }, 30_000)
})
