import { describe, expect, it } from 'vitest'
import { jsonLine, jsonText } from '../../../src/cli/json/jsonText.ts'

describe('JSON output', () => {
  it('keeps every digit of a number', () => {
    expect(JSON.parse(jsonText({ value: 1 / 3 }))).toEqual({ value: 1 / 3 })
    expect(jsonLine({ a: [1, null] })).toBe('{"a":[1,null]}\n')
  })

  it('puts on one line what fits there, and the rest apart, with nothing lost', () => {
    const path = Array.from({ length: 12 }, (_, index) => ({ x: index / 3e4, y: -index / 7e4 }))
    const data = { net: 'CK', gap: null, path, left: undefined, none: [], empty: {} }
    const text = jsonText(data)
    expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(data)))
    expect(text).toContain('\n    {"x":0.0001,"y":')
    expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(160)
    expect(text.split('\n')).toHaveLength(12 + 9)
  })

  it('refuses NaN and infinity, which would come out as null', () => {
    expect(() => jsonText({ inner: { impedance: NaN } })).toThrow('got impedance = NaN')
    expect(() => jsonLine([Infinity])).toThrow(RangeError)
  })
})
