import { describe, expect, it } from 'vitest'
import {
  hasGroundBeside,
  isBarePair,
  isBroadsidePair,
  isCoatedPair,
  isEmbeddedPair,
  isStriplinePair,
} from '../../../src/impedance/formulas/pairStructures.ts'
import { PAIR_STRUCTURES, randomPairs } from '../../helpers/randomPairs.ts'
import { randomSections } from '../../helpers/randomSections.ts'

const KINDS = { isBarePair, isCoatedPair, isEmbeddedPair, isStriplinePair, isBroadsidePair }

describe('the structures of pairs', () => {
  it.each([
    ['bare microstrip', 'isBarePair', false],
    ['coated microstrip', 'isCoatedPair', false],
    ['embedded microstrip', 'isEmbeddedPair', false],
    ['stripline', 'isStriplinePair', false],
    ['bare coplanar', 'isBarePair', true],
    ['coated coplanar', 'isCoatedPair', true],
    ['embedded coplanar', 'isEmbeddedPair', true],
    ['coplanar stripline', 'isStriplinePair', true],
    ['broadside', 'isBroadsidePair', false],
  ] as const)('a pair as %s is %s and nothing else', (structure, kind, ground) => {
    expect(PAIR_STRUCTURES).toContain(structure)
    for (const section of randomPairs(structure, 4, 3)) {
      expect(Object.entries(KINDS).flatMap(([name, is]) => (is(section) ? [name] : []))).toEqual([kind])
      expect(hasGroundBeside(section)).toBe(ground)
    }
  })

  it('are none of a single trace', () => {
    const sections = randomSections('stripline', 4, 3)
    expect(sections.filter((section) => Object.values(KINDS).some((is) => is(section)))).toEqual([])
  })
})
