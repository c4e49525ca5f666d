import { describe, expect, it } from 'vitest'
import { slug } from '../../../src/report/viewModel/section.ts'
import {
  capital,
  count,
  keepTogether,
  lengthRange,
  list,
  someOf,
  target,
} from '../../../src/report/viewModel/words.ts'

describe('small pieces of print', () => {
  it('count in words', () => {
    expect(count(1, 'net')).toBe('1 net')
    expect(count(0, 'net')).toBe('0 nets')
    expect(count(2, 'further kind')).toBe('2 further kinds')
  })

  it('list with commas and an and', () => {
    expect(list([])).toBe('none')
    expect(list(['a'])).toBe('a')
    expect(list(['a', 'b', 'c'])).toBe('a, b and c')
  })

  it('cut a long list and say by how much, but never to name one more', () => {
    const names = ['a', 'b', 'c', 'd', 'e']
    expect(someOf(names, 4)).toBe('a, b, c, d and e')
    expect(someOf(names, 3)).toBe('a, b, c and 2 more')
  })

  it('print a target with whole per cent where they are whole', () => {
    expect(target(40, 0.1)).toBe('40.0 ohm ± 10 %')
    expect(target(40, 0.075)).toBe('40.0 ohm ± 7.5 %')
  })

  it('print one length where both ends print alike', () => {
    expect(lengthRange(0.1e-3, 0.1001e-3, 'mm')).toBe('0.100 mm')
    expect(lengthRange(0.1e-3, 0.2e-3, 'mm')).toBe('0.100 to 0.200 mm')
    expect(lengthRange(25.4e-6, 50.8e-6, 'mil')).toBe('1.0 to 2.0 mil')
  })

  it('keep figures with their units, and nothing else', () => {
    expect(keepTogether('52.4 ohm ± 2.0 % at 1 GHz, 3 ohmic, 12 nets')).toBe(
      '52.4\u00a0ohm ±\u00a02.0\u00a0% at 1\u00a0GHz, 3 ohmic, 12 nets',
    )
    expect(keepTogether('6.9 ps/mm and 0.012 dB/mm')).toBe('6.9\u00a0ps/mm and 0.012\u00a0dB/mm')
  })

  it('begin with a capital', () => {
    expect(capital('abc')).toBe('Abc')
    expect(capital('')).toBe('')
  })

  it('make an id of any name', () => {
    expect(slug('Serial, 16 Gb/s')).toBe('serial-16-gb-s')
    expect(slug('Ω')).toBe('unnamed')
  })
})
