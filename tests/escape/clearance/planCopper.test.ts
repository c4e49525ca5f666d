import { describe, expect, it } from 'vitest'
import { fromGrid } from '../../../src/escape/clearance/gridUnits.ts'
import { Drawing } from '../../../src/escape/clearance/planCopper.ts'
import type { Shape } from '../../../src/escape/clearance/shape.ts'
import type { Board } from '../../../src/board/board.ts'
import { boardOf, packageOf, padsOf, um, via } from '../fixtures.ts'
import { bone, copperOf, trace } from './plans.ts'

const PACK = packageOf(['sp', 'gs'])

/** Kind, ball, and diameter in um of what a layer shows of some kinds. */
function shown(shapes: readonly Shape[], ...kinds: Shape['kind'][]): string[] {
  return shapes
    .filter(({ kind }) => kinds.includes(kind))
    .map(({ kind, owner, radius }) => `${kind} ${owner.name} ${Math.round((2 * fromGrid(radius)) / um(1))}`)
}

const HOLES = ['via pad', 'hole'] as const

describe('the drawing of a plan', () => {
  const board: Board = boardOf(PACK, {
    vias: [
      via('laser', {
        kind: 'microvia',
        lastLayer: 2,
        drilledDiameter: um(100),
        padDiameters: padsOf(2, 250),
      }),
      via('core', {
        kind: 'buried',
        firstLayer: 2,
        lastLayer: 11,
        padDiameters: [460, 410, 420, 430, 440, 400, 400, 400, 400, 460].map(um),
        unconnectedInnerPads: 'removed',
      }),
    ],
  })
  const drawing = new Drawing(
    board,
    PACK,
    copperOf(trace('0,0', 5, [[-800, 800], [-800, 2000]], { via: 'laser + core' })), // prettier-ignore
  )

  it('puts a hole on every layer that it spans, and pads at its ends and where the net is joined', () => {
    const layers = [1, 2, 3, 5, 11, 12].map((layer) => shown(drawing.shapesOn(layer), ...HOLES))
    expect(layers).toEqual([
      ['via pad 0,0 250', 'hole 0,0 100'],
      ['via pad 0,0 250', 'hole 0,0 100', 'via pad 0,0 460', 'hole 0,0 200'],
      ['hole 0,0 200'],
      ['via pad 0,0 430', 'hole 0,0 200'],
      ['via pad 0,0 460', 'hole 0,0 200'],
      [],
    ])
  })

  it('keeps every pad where unconnected ones are kept, also of a hole described from below', () => {
    const upwards = via('up', { kind: 'blind', firstLayer: 4, lastLayer: 1, padDiameters: padsOf(4, 300) })
    const kept = new Drawing(
      boardOf(PACK, { vias: [upwards] }),
      PACK,
      copperOf(trace('0,0', 4, [[0, 0]], { via: 'up' })),
    )
    expect([1, 2, 3, 4, 5].map((layer) => shown(kept.shapesOn(layer), 'via pad').length)).toEqual([
      1, 1, 1, 1, 0,
    ])
  })

  it('shows lands and mask openings of all balls on their layer alone, and a ball that stays inside without a via', () => {
    expect(shown(drawing.shapesOn(1), 'land', 'mask opening')).toEqual(
      PACK.balls.flatMap(({ name }) => [`land ${name} 400`, `mask opening ${name} 450`]),
    )
    expect(shown(drawing.shapesOn(2), 'land', 'mask opening')).toEqual([])
    expect(drawing.shapesOn(3).map(({ owner }) => owner.name)).toEqual(['0,0'])
  })

  it('shows a trace once for each straight stretch, on its exit layer', () => {
    expect(shown(drawing.shapesOn(5), 'trace')).toEqual(['trace 0,0 80'])
    expect(shown(drawing.shapesOn(4), 'trace')).toEqual([])
  })

  it.each([
    ['half a pitch outwards', 'dog-bone', PACK.pitch, [800, 800], [-800, -800]],
    ['half a via pitch outwards from where that pitch puts it', 'dog-bone', { x: um(1000), y: um(900) }, [1000, 900], [-1000, -900]], // prettier-ignore
    ['in the land', 'in pad', PACK.pitch, [400, 400], [-400, -400]],
  ] as const)('puts a power or ground via %s', (_, viaPlacement, viaPitch, upperRight, lowerLeft) => {
    const pack = { ...PACK, viaPlacement, viaPitch }
    const supplies = ['0,1', '1,0'].map((ball) => ({ ball, via: 'through', endLayer: 6 }))
    const places = new Drawing(boardOf(pack), pack, { ...copperOf(), supplies })
      .shapesOn(6)
      .filter(({ kind }) => kind === 'hole')
      .map(({ ax, ay }) => [ax, ay].map((steps) => Math.round(fromGrid(steps) / um(1))))
    expect(places).toEqual([upperRight, lowerLeft])
  })

  it('puts a power or ground via at the far end of its dog-bone where the plan draws one', () => {
    const supplies = [{ ball: '0,1', via: 'through', endLayer: 6 }]
    const plan = { ...copperOf(bone('0,1', [400, 400], [0, 800])), supplies }
    const [hole] = new Drawing(boardOf(PACK), PACK, plan).shapesOn(2).filter(({ kind }) => kind === 'hole')
    expect([hole?.ax, hole?.ay].map((steps) => fromGrid(steps ?? NaN))).toEqual([0, um(800)])
  })
})
