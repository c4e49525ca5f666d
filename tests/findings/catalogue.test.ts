import { describe, expect, it } from 'vitest'
import { CATALOGUE } from '../../src/findings/catalogue.ts'
import { FINDING_CODES } from '../../src/findings/finding.ts'

describe('the catalogue of findings', () => {
  it('has an entry for every code, in their order, and no other', () => {
    expect(Object.keys(CATALOGUE)).toEqual([...FINDING_CODES])
  })

  it('leaves no column empty', () => {
    for (const entry of Object.values(CATALOGUE)) {
      expect(
        [entry.title, entry.meaning, entry.limit, entry.severity].filter((text) => text.length < 5),
      ).toEqual([])
    }
  })
})
