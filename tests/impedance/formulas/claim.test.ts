import { describe, expect, it } from 'vitest'
import { type Band, claimAt, placeOf, type Region } from '../../../src/impedance/formulas/claim.ts'

const regions: readonly Region[] = [
  { limits: [{ quantity: 'w/h', min: 0.5, max: 2 }] },
  {
    limits: [
      { quantity: 'w/h', min: 0.1, max: 10 },
      { quantity: 't/h', min: 0, max: 1 },
    ],
  },
]
const bands: readonly Band[] = [
  { error: 0.01, basis: 'near' },
  { error: 0.03, basis: 'wide' },
]

describe('placeOf', () => {
  it('takes the first region that holds, bounds included', () => {
    expect(placeOf(regions, { 'w/h': 2, 't/h': 5 })).toEqual({ region: 0, growth: 1 })
    expect(placeOf(regions, { 'w/h': 2.1, 't/h': 0 })).toEqual({ region: 1, growth: 1 })
  })

  it('grows from the last region by the factor of excess, once for each limit broken', () => {
    expect(placeOf(regions, { 'w/h': 15, 't/h': 0.5 })).toEqual({ region: 1, growth: 1.5 })
    expect(placeOf(regions, { 'w/h': 0.05, 't/h': 0.5 })).toEqual({ region: 1, growth: 2 })
    expect(placeOf(regions, { 'w/h': 15, 't/h': 3 })).toEqual({ region: 1, growth: 1.5 * 3 })
  })

  it('refuses no regions, a missing value, and a broken limit of zero', () => {
    expect(() => placeOf([], {})).toThrow(RangeError)
    expect(() => placeOf(regions, { 't/h': 1 })).toThrow(/w\/h needs a finite value/)
    const thin: Region = { limits: [{ quantity: 't/h', min: 0, max: 0 }] }
    expect(() => placeOf([thin], { 't/h': 0.1 })).toThrow(/no factor of excess/)
  })
})

describe('claimAt', () => {
  it('gives the band of the region, grown where the place lies outside, and says so', () => {
    expect(claimAt(bands, { region: 0, growth: 1 })).toEqual({ error: 0.01, basis: 'near' })
    const outside = claimAt(bands, { region: 1, growth: 3 })
    expect(outside.error).toBeCloseTo(0.09, 12)
    expect(outside.basis).toContain('wide; outside that range')
  })

  it('sums the added errors on top and names their causes, leaving out those of nothing', () => {
    const claim = claimAt(bands, { region: 0, growth: 1 }, [
      { error: 0.002, cause: 'plus one' },
      { error: 0, cause: 'plus nothing' },
      { error: 0.003, cause: 'plus another' },
    ])
    expect(claim.error).toBeCloseTo(0.015, 12)
    expect(claim.basis).toBe('near; plus one; plus another')
  })

  it('refuses a region without a band', () => {
    expect(() => claimAt(bands, { region: 2, growth: 1 })).toThrow('no band was measured in region 2')
  })
})
