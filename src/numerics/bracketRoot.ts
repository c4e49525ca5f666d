import { SolverError } from './solverError.ts'

export interface BracketOptions {
  /** Half-width of the interval at which to stop, in the unit of the argument; 0 for the last digits a double holds. */
  readonly tolerance?: number
  readonly maxIterations?: number
}

interface Sample {
  readonly x: number
  readonly y: number
}

/**
 * Root of a continuous function between two points of opposite sign, by bisection that turns to inverse
 * quadratic interpolation where three samples promise that it converges. Needs no derivative and never
 * leaves the bracket.
 *
 * Throws RangeError when the ends are not of opposite sign or the function returns NaN, SolverError when
 * `maxIterations` (default 200) do not reach the tolerance.
 *
 * Source: T. R. Chandrupatla, "A new hybrid quadratic/bisection algorithm for finding the zero of a nonlinear
 * function without using derivatives", Advances in Engineering Software 28, 145–149, 1997.
 */
export function bracketRoot(
  f: (x: number) => number,
  low: number,
  high: number,
  options: BracketOptions = {},
): number {
  const { tolerance = 0, maxIterations = 200 } = options
  const evaluate = (x: number): Sample => sampleOf(f, x)
  let newest = evaluate(low)
  let other = evaluate(high)
  if (newest.y === 0) return low
  if (other.y === 0) return high
  assertOpposite(newest, other)
  // A root at 0 has no last digit; this floor is far below what the ends of the bracket can tell apart.
  const floor = Number.EPSILON ** 2 * Math.abs(high - low)
  let fraction = 0.5
  for (let iteration = 0; iteration < maxIterations; iteration += 1) {
    const next = evaluate(newest.x + fraction * (other.x - newest.x))
    const sameSide = next.y > 0 === newest.y > 0
    const outside = sameSide ? newest : other
    if (!sameSide) other = newest
    newest = next
    const best = Math.abs(newest.y) < Math.abs(other.y) ? newest : other
    const smallest = tolerance + 2 * Number.EPSILON * Math.abs(best.x) + floor
    const least = smallest / Math.abs(other.x - newest.x)
    if (best.y === 0 || !(least < 0.5)) return best.x
    fraction = Math.min(1 - least, Math.max(least, nextFraction(newest, other, outside)))
  }
  throw new SolverError('root bracketing', maxIterations, Math.abs(other.x - newest.x), tolerance)
}

function assertOpposite(one: Sample, other: Sample): void {
  if (one.y > 0 !== other.y > 0) return
  throw new RangeError(
    `bracketRoot needs a change of sign, got ${one.y} at ${one.x} and ${other.y} at ${other.x}`,
  )
}

function sampleOf(f: (x: number) => number, x: number): Sample {
  const y = f(x)
  if (Number.isNaN(y)) throw new RangeError(`bracketRoot needs a number, got NaN at ${x}`)
  return { x, y }
}

/** Where to look next between newest (0) and other (1): Chandrupatla's test, then interpolation or the middle. */
function nextFraction(newest: Sample, other: Sample, outside: Sample): number {
  const xi = (newest.x - other.x) / (outside.x - other.x)
  const phi = (newest.y - other.y) / (outside.y - other.y)
  if (!(phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi)) return 0.5
  return (
    ((newest.y / (other.y - newest.y)) * outside.y) / (other.y - outside.y) +
    ((((outside.x - newest.x) / (other.x - newest.x)) * newest.y) / (outside.y - newest.y)) *
      (other.y / (outside.y - other.y))
  )
}
