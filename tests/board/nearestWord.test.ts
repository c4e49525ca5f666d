import { describe, expect, it } from 'vitest'
import { nearestWord, suggestion } from '../../src/board/nearestWord.ts'

describe('the nearest word', () => {
  it.each([
    ['perpreg', 'prepreg'],
    ['coper', 'copper'],
    ['COPPER', 'copper'],
    ['roel', 'role'],
    ['thicknes_tolerance', 'thickness_tolerance'],
  ])('to %s is %s', (word, wanted) => {
    expect(nearestWord(word, ['role', 'copper', 'prepreg', 'thickness_tolerance'])).toBe(wanted)
  })

  it('is none where more than a third of the letters would change', () => {
    expect(nearestWord('dielectric', ['copper', 'prepreg', 'core'])).toBeNull()
    expect(suggestion('dielectric', ['copper'])).toBe('')
  })

  it('counts a swap of neighbours as one change', () => {
    expect(nearestWord('nte', ['net'])).toBe('net')
    expect(nearestWord('etn', ['net'])).toBeNull()
  })

  it('is offered as a question', () => {
    expect(suggestion('coer', ['core', 'copper'])).toBe('; did you mean "core"?')
  })
})
