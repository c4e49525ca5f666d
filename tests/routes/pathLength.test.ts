import { describe, expect, it } from 'vitest'
import { pathLength } from '../../src/routes/pathLength.ts'

describe('pathLength', () => {
  it('adds the straight pieces', () => {
    expect(
      pathLength([
        { x: 0, y: 0 },
        { x: 3, y: 4 },
        { x: 3, y: 10 },
      ]),
    ).toBe(11)
  })

  it('is 0 without a piece', () => {
    expect(pathLength([])).toBe(0)
    expect(pathLength([{ x: 1, y: 1 }])).toBe(0)
  })
})
