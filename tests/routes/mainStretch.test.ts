import { describe, expect, it } from 'vitest'
import { mainStretch } from '../../src/routes/mainStretch.ts'

const stretch = (coupled: boolean, length: number): { coupled: boolean; length: number; beside: [] } => ({
  coupled,
  length,
  beside: [],
})

describe('the stretch that speaks for a neck', () => {
  it('is where a pair runs side by side, else the longest', () => {
    const [leadIn, beside, runOn] = [stretch(false, 2e-3), stretch(true, 1e-3), stretch(false, 3e-3)]
    expect(mainStretch({ stretches: [leadIn, beside, runOn] })).toBe(beside)
    expect(mainStretch({ stretches: [leadIn, runOn] })).toBe(runOn)
    expect(mainStretch({ stretches: [] })).toBeUndefined()
  })
})
