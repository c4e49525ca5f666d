import { bench, describe } from 'vitest'
import { escapePackage } from '../../src/escape/escapePackage.ts'
import { planEscape } from '../../src/escape/planEscape.ts'
import { boardOf, packageOf, square, via } from '../escape/fixtures.ts'

/** 50 × 50 balls, 60 % signals in a regular pattern, twelve layers, blind vias to eight of them. */
const pack = packageOf(square(50, (row, column) => ((row * 7 + column * 3) % 5 < 2 ? 'g' : 's')))
const blind = Array.from({ length: 8 }, (_, index) =>
  via(`to ${index + 2}`, { kind: 'blind', lastLayer: index + 2 }),
)
const board = boardOf(pack, { vias: [via('through'), ...blind] })

/** What was computed is looked at, so that it is not optimised away. */
let routes = 0

describe('2,500 balls, 1,500 signals, 12 layers', () => {
  bench('plan with through vias', () => {
    routes += planEscape(board, pack, 'through').routes.length
  })

  bench('plan with blind vias', () => {
    routes += planEscape(board, pack, 'blind').routes.length
  })

  bench('both plans, channels, rules (aim: 300 ms)', () => {
    routes += escapePackage(board, pack).plans.length
    if (routes === 0) throw new RangeError('nothing was planned')
  })
})
