import { describe, expect, it } from 'vitest'
import { claimAt, type ClaimedRegion } from '../../../src/impedance/formulas/claim.ts'

const regions: readonly ClaimedRegion[] = [
  { limits: [{ quantity: 'w/h', min: 0.5, max: 2 }], error: 0.01, basis: 'near' },
  {
    limits: [
      { quantity: 'w/h', min: 0.1, max: 10 },
      { quantity: 't/h', min: 0, max: 1 },
    ],
    error: 0.03,
    basis: 'wide',
  },
]

describe('claimAt', () => {
  it('takes the first region that holds, bounds included', () => {
    expect(claimAt(regions, { 'w/h': 2, 't/h': 5 })).toEqual({ error: 0.01, basis: 'near' })
    expect(claimAt(regions, { 'w/h': 2.1, 't/h': 0 })).toEqual({ error: 0.03, basis: 'wide' })
  })

  it('multiplies the last error by twice the factor of excess outside every region', () => {
    expect(claimAt(regions, { 'w/h': 15, 't/h': 0.5 }).error).toBeCloseTo(0.03 * 2 * 1.5, 12)
    expect(claimAt(regions, { 'w/h': 0.05, 't/h': 0.5 }).error).toBeCloseTo(0.03 * 2 * 2, 12)
    expect(claimAt(regions, { 'w/h': 15, 't/h': 0.5 }).basis).toContain('wide; outside that range')
  })

  it('multiplies once for each limit broken', () => {
    expect(claimAt(regions, { 'w/h': 15, 't/h': 3 }).error).toBeCloseTo(0.03 * (2 * 1.5) * (2 * 3), 12)
  })

  it('sums the added errors on top and names their causes, leaving out those of nothing', () => {
    const claim = claimAt(regions, { 'w/h': 1, 't/h': 0.5 }, [
      { error: 0.002, cause: 'plus one' },
      { error: 0, cause: 'plus nothing' },
      { error: 0.003, cause: 'plus another' },
    ])
    expect(claim.error).toBeCloseTo(0.015, 12)
    expect(claim.basis).toBe('near; plus one; plus another')
  })

  it('refuses no regions, a missing value, and a broken limit of zero', () => {
    expect(() => claimAt([], {})).toThrow(RangeError)
    expect(() => claimAt(regions, { 't/h': 1 })).toThrow(/w\/h needs a finite value/)
    const thin: ClaimedRegion = { limits: [{ quantity: 't/h', min: 0, max: 0 }], error: 0.01, basis: 'thin' }
    expect(() => claimAt([thin], { 't/h': 0.1 })).toThrow(/no factor of excess/)
  })
})
