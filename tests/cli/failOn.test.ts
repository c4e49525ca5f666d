import { describe, expect, it } from 'vitest'
import { fails, SEVERITIES, type FailOn } from '../../src/cli/failOn.ts'

describe('fails', () => {
  it.each<[FailOn, readonly boolean[]]>([
    ['error', [true, false, false]],
    ['warning', [true, true, false]],
    ['note', [true, true, true]],
    ['never', [false, false, false]],
  ])('on %s counts what is at least as grave', (failOn, expected) => {
    expect(SEVERITIES.map((severity) => fails([{ severity }], failOn))).toEqual(expected)
    expect(fails([], failOn)).toBe(false)
  })
})
