import { describe, expect, it } from 'vitest'
import { NO_WISHES } from '../../src/board/escapeWishes.ts'
import { leastLayers } from '../../src/escape/layerBound.ts'
import { planJob } from '../../src/escape/planJob.ts'
import {
  boardOf,
  copperStack,
  fabrication,
  netClass,
  netOf,
  packageOf,
  padsOf,
  square,
  um,
  via,
} from './fixtures.ts'

describe('the least layers of any plan', () => {
  /** One net that may leave on L2, and one on L3; a fence of pads 100 um apart stands about the place in the middle. */
  const fenced = (second: string, third: string): number | null => {
    const drawing = square(7, (row, column) => {
      if ([second, third].includes(`${row},${column}`)) return 's'
      return Math.min(row, column, 6 - row, 6 - column) === 1 ? 'g' : '.'
    })
    const pack = packageOf(drawing, { viaPlacement: 'in pad' })
    const nets = [netOf(second, 'single', { exitLayer: 2 }), netOf(third, 'single', { exitLayer: 3 })]
    const vias = [via('through', { lastLayer: 3, padDiameters: padsOf(3, 700) })]
    return leastLayers(planJob(boardOf(pack, { nets, vias, stackup: copperStack(3) }), pack, 'through'))
  }

  it('tell apart layers on which as many balls wait, but in other places', () => {
    expect(fenced('0,0', '0,6')).toBe(2)
    expect(fenced('0,0', '3,3')).toBeNull()
    expect(fenced('3,3', '0,0')).toBeNull()
  })

  it('tell apart layers on which the same stands in other places', () => {
    // Blind vias of the fence end on the ground plane L3, those of two power balls outside it on L4.
    const drawing = square(7, (row, column) => {
      if (row === 3 && (column === 2 || column === 4)) return 's'
      if (Math.min(row, column, 6 - row, 6 - column) === 1) return 'g'
      return row === 0 && column < 2 ? 'p' : '.'
    })
    const nets = [netOf('3,2', 'single', { exitLayer: 2 }), netOf('3,4', 'single', { exitLayer: 4 })]
    const vias = [2, 3, 4].map((layer) =>
      via(`to ${layer}`, { kind: 'blind', lastLayer: layer, padDiameters: padsOf(layer, 700) }),
    )
    const run = (layerOrder: readonly number[]): number | null => {
      const pack = packageOf(drawing, { viaPlacement: 'in pad', escape: { ...NO_WISHES, layerOrder } })
      const board = boardOf(pack, { nets, vias, stackup: copperStack(4, [3]) })
      return leastLayers(planJob(board, pack, 'blind'))
    }
    expect(run([2, 4])).toBeNull()
    expect(run([4, 2])).toBeNull()
    const both = nets.map((net) => ({ ...net, exitLayer: 4 }))
    const pack = packageOf(drawing, { viaPlacement: 'in pad' })
    const board = boardOf(pack, { nets: both, vias, stackup: copperStack(4, [3]) })
    expect(leastLayers(planJob(board, pack, 'blind'))).toBe(1)
  })
})

/*
 * Where nothing but the waiting nets stands on a layer, only the room round them limits it: centre lines a width and a
 * gap apart all the way round the outermost places. For n × n places a pitch p apart these are
 * ⌊4 (n − 1) p / (width + gap)⌋ traces (perimeter over trace pitch; common practice, no source). Dog-bones that lead
 * outwards leave one place more on every side.
 */
describe('the room round an array', () => {
  const side = 20
  const pitch = um(800)

  it.each([
    ['through', 'in pad', side - 1],
    ['blind', 'in pad', side - 1],
    ['blind', 'dog-bone', side],
  ] as const)(
    'takes all nets on one layer until their trace pitch grows by 1 %%: %s vias, %s',
    (technology, viaPlacement, steps) => {
      const layersAt = (tracePitch: number): number | null => {
        const pack = packageOf(square(side), { viaPlacement })
        const hole = { padDiameters: padsOf(3, 450), lastLayer: 3 }
        const board = boardOf(pack, {
          stackup: copperStack(3),
          vias: [via('through', hole), via('to 3', { ...hole, kind: 'blind' })],
          fabrication: fabrication({ traceWidth: { outer: um(20), inner: um(20) } }),
          classes: [netClass('single', { neck: { width: tracePitch / 2, gap: tracePitch / 2 } })],
        })
        return leastLayers(planJob(board, pack, technology))
      }
      const finest = (4 * steps * pitch) / side ** 2
      expect(layersAt(0.99 * finest)).toBe(1)
      expect(layersAt(1.01 * finest)).toBe(2)
    },
  )
})
