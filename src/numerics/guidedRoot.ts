import { bracketRoot } from './bracketRoot.ts'

export interface GuidedRootOptions {
  /** Relative miss of the target at which to stop. */
  readonly tolerance: number
}

const MOST_STEPS = 8
/** Share of the lower end to which the cheap function's root is found: it is a guess only. */
const COARSE = 1e-4

/**
 * Where a costly positive function meets a target, found with a cheap one that runs nearly alike.
 *
 * The cheap function's own root is the first guess, its root for the target scaled by the miss the second; from
 * there on the secant through the last two values over logarithms, which a monotonic positive function follows
 * closely. Where the cheap function gives no guess or the steps do not settle, the costly one is bracketed.
 *
 * Null where the costly function then does not cross the target between `low` and `high`, both above 0.
 */
export function guidedRoot(
  costly: (x: number) => number,
  cheap: (x: number) => number,
  target: number,
  [low, high]: readonly [number, number],
  { tolerance }: GuidedRootOptions,
): number | null {
  const inside = (x: number): number => Math.min(high, Math.max(low, x))
  const missAt = (x: number): number => Math.log(costly(x) / target)
  const crosses = (level: number): boolean => cheap(low) > level !== cheap(high) > level
  const guess = (level: number): number =>
    bracketRoot((x) => cheap(x) - level, low, high, { tolerance: COARSE * low })
  if (crosses(target)) {
    let x = guess(target)
    let miss = missAt(x)
    const scaled = target * Math.exp(-miss)
    let next = crosses(scaled) ? guess(scaled) : inside(x * (1 + miss))
    for (let step = 0; step < MOST_STEPS && Number.isFinite(next); step += 1) {
      if (Math.abs(miss) <= tolerance) return x
      const missNext = missAt(next)
      const slope = (missNext - miss) / Math.log(next / x)
      x = next
      miss = missNext
      next = inside(x * Math.exp(-miss / slope))
    }
  }
  if (missAt(low) > 0 === missAt(high) > 0) return null
  return bracketRoot(missAt, low, high, { tolerance: tolerance * low })
}
