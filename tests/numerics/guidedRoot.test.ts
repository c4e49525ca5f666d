import { describe, expect, it } from 'vitest'
import { guidedRoot } from '../../src/numerics/guidedRoot.ts'

/** Counts the calls of a function. */
function counted(f: (x: number) => number): { f: (x: number) => number; calls: () => number } {
  let calls = 0
  return { f: (x) => ((calls += 1), f(x)), calls: () => calls }
}

describe('guidedRoot', () => {
  it('meets the target of the costly function in three calls where the cheap one is a few percent off', () => {
    const costly = counted((x) => 100 / Math.sqrt(x + 0.3))
    const root = guidedRoot(costly.f, (x) => 103 / (x + 0.3) ** 0.51, 50, [0.1, 100], { tolerance: 1e-4 })
    // 100/√(x + 0.3) = 50 at x = 3.7 exactly.
    expect(Math.abs(Number(root) / 3.7 - 1)).toBeLessThan(3e-4)
    expect(costly.calls()).toBeLessThanOrEqual(3)
  })

  it('follows a rising function as well as a falling one', () => {
    const root = guidedRoot(
      (x) => x * x,
      (x) => 0.9 * x * x,
      2,
      [0.5, 5],
      { tolerance: 1e-9 },
    )
    expect(Number(root)).toBeCloseTo(Math.SQRT2, 8)
  })

  it('brackets the costly function where the cheap one leads nowhere', () => {
    const root = guidedRoot(
      (x) => Math.exp(x),
      () => 1,
      4,
      [0.1, 5],
      { tolerance: 1e-6 },
    )
    expect(Number(root)).toBeCloseTo(Math.log(4), 5)
  })

  it('stops at a jump of the costly function instead of wandering', () => {
    const costly = counted((x) => (x < 1 ? 60 : 40) / x ** 0.01)
    const root = guidedRoot(costly.f, (x) => 50 / x, 50, [0.1, 10], { tolerance: 1e-6 })
    expect(Number(root)).toBeCloseTo(1, 5)
    expect(costly.calls()).toBeLessThan(60)
  })

  it('says null where the costly function does not cross the target', () => {
    const root = guidedRoot(
      (x) => 10 / x,
      (x) => 50 / x,
      50,
      [1, 2],
      { tolerance: 1e-6 },
    )
    expect(root).toBeNull()
  })
})
