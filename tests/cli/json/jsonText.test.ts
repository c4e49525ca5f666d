import { describe, expect, it } from 'vitest'
import { jsonLine, jsonText } from '../../../src/cli/json/jsonText.ts'

describe('JSON output', () => {
  it('keeps every digit of a number', () => {
    expect(JSON.parse(jsonText({ value: 1 / 3 }))).toEqual({ value: 1 / 3 })
    expect(jsonLine({ a: [1, null] })).toBe('{"a":[1,null]}\n')
  })

  it('refuses NaN and infinity, which would come out as null', () => {
    expect(() => jsonText({ inner: { impedance: NaN } })).toThrow('got impedance = NaN')
    expect(() => jsonLine([Infinity])).toThrow(RangeError)
  })
})
