import { describe, expect, it } from 'vitest'
import { slug } from '../../../src/report/viewModel/section.ts'
import {
  bandText,
  capital,
  count,
  keepTogether,
  lengthRange,
  list,
  methodInSentence,
  roughLength,
  signedPercent,
  someOf,
  target,
  withLayerNames,
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

  it('leave names of files and paths of keys as they are written', () => {
    expect(capital('classes[0].target is 90 mm')).toBe('classes[0].target is 90 mm')
    expect(capital('stackup.layers[11].role is "plain"')).toBe('stackup.layers[11].role is "plain"')
    expect(capital('board.yaml line 1 has a tab')).toBe('board.yaml line 1 has a tab')
    expect(capital('trace width is 0.1 mm')).toBe('Trace width is 0.1 mm')
  })

  it('write a method small inside a sentence, and names of authors large', () => {
    expect(methodInSentence('Field solution by boundary elements')).toBe(
      'field solution by boundary elements',
    )
    expect(methodInSentence('Cohn, thick pair midway')).toBe('Cohn, thick pair midway')
  })

  it('call a layer by its name in the stackup', () => {
    const layerName = (layer: number): string => ['TOP', 'GND1', 'IN1'][layer - 1] ?? '?'
    expect(withLayerNames('class memory data on layer 3', layerName)).toBe('class memory data on IN1')
    expect(withLayerNames('one layer 3', layerName)).toBe('one IN1')
    expect(withLayerNames('3 signal layers', layerName)).toBe('3 signal layers')
  })

  it('give no sign to what rounds to nothing', () => {
    expect(signedPercent(0.0004)).toBe('0.0 %')
    expect(signedPercent(-0.0004)).toBe('0.0 %')
    expect(signedPercent(0.0006)).toBe('+0.1 %')
    expect(signedPercent(-0.0102)).toBe('-1.0 %')
    expect(signedPercent(0.104)).toBe('+10.4 %')
  })

  it('print a band with no more digits than it is worth', () => {
    expect(bandText(0.013)).toBe('1.3 %')
    expect(bandText(0.0994)).toBe('9.9 %')
    expect(bandText(0.0997)).toBe('10 %')
    expect(bandText(1.432)).toBe('143 %')
  })

  it('print a derived length with three digits from ten units up', () => {
    expect(roughLength(7.12e-3, 'mm')).toBe('7.120 mm')
    expect(roughLength(14.026e-3, 'mm')).toBe('14.0 mm')
    expect(roughLength(266.599e-3, 'mm')).toBe('267 mm')
    expect(roughLength(1.2345, 'mm')).toBe('1235 mm')
    expect(roughLength(25.4e-6 * 553, 'mil')).toBe('553 mil')
  })

  it('make an id of any name', () => {
    expect(slug('Serial, 16 Gb/s')).toBe('serial-16-gb-s')
    expect(slug('Ω')).toBe('unnamed')
  })
})
