import type { Package } from '../board/packages.ts'
import type { SignalCount } from './escape.ts'
import { ringOf } from './field.ts'

/**
 * Signals of a package, and how deep they lie. Where the ball map does not say which balls are signals they are a share
 * of all balls, and may lie in every ring that holds a ball.
 */
export function signalCount(pack: Package): SignalCount {
  const assumed = pack.signalsAssumed
  const signals = pack.balls.filter(({ use }) => use === 'signal')
  const possible = assumed && signals.length === 0 ? pack.balls : signals
  return {
    count: assumed ? Math.round(pack.balls.length * pack.signalShare) : signals.length,
    assumed,
    deepestRing: possible.reduce(
      (deepest, { row, column }) => Math.max(deepest, ringOf(row, column, pack.rows, pack.columns)),
      0,
    ),
  }
}
