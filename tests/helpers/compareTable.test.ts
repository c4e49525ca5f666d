import { describe, expect, it } from 'vitest'
import { missedRows, within } from './compareTable.ts'

describe('missedRows', () => {
  it('is empty when every row lies within its tolerance, the bound included', () => {
    expect(missedRows([{ label: 'a', actual: 1.5, expected: 1, tolerance: 0.5 }])).toBe('')
  })

  it('counts the misses and puts the worst first', () => {
    const report = missedRows([
      { label: 'near', actual: 1.2, expected: 1, tolerance: 0.1 },
      { label: 'good', actual: 1, expected: 1, tolerance: 0.1 },
      { label: 'far', actual: 2, expected: 1, tolerance: 0.1 },
    ])
    expect(report.split('\n')[0]).toBe('2 of 3 rows missed, worst first:')
    expect(report.split('\n')[1]).toContain('far: got 2, expected 1')
    expect(report.split('\n')[2]).toContain('near')
  })

  it('takes NaN for a miss, and for the worst', () => {
    const report = missedRows([
      { label: 'far', actual: 9, expected: 1, tolerance: 0.1 },
      { label: 'lost', actual: NaN, expected: 1, tolerance: 0.1 },
    ])
    expect(report.split('\n')[1]).toContain('lost')
  })

  it('takes a table without rows for a failure', () => {
    expect(missedRows([])).toBe('nothing was compared')
  })

  it('measures a relative tolerance against the expected value', () => {
    expect(missedRows([within(0.01, 'a', -1.009, -1)])).toBe('')
    expect(missedRows([within(0.01, 'a', -1.011, -1)])).not.toBe('')
  })
})
