import { describe, expect, it } from 'vitest'
import { decodeText } from '../../../src/board/document/decodeText.ts'

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text)

function utf16(text: string, mark: readonly number[]): Uint8Array {
  const units = Array.from({ length: text.length }, (_, index) => text.charCodeAt(index))
  const low = mark[0] !== 0xfe
  return Uint8Array.from([
    ...mark,
    ...units.flatMap((unit) => (low ? [unit % 256, unit >> 8] : [unit >> 8, unit % 256])),
  ])
}

describe('decoding', () => {
  it('reads UTF-8 with and without a byte order mark', () => {
    expect(decodeText(bytes('µΩ'), 100)).toEqual({ ok: true, text: 'µΩ' })
    expect(decodeText(bytes('\uFEFFµΩ'), 100)).toEqual({ ok: true, text: 'µΩ' })
    expect(decodeText('\uFEFFa', 100)).toEqual({ ok: true, text: 'a' })
  })

  it.each([
    ['UTF-16, low byte first', utf16('title: a', [0xff, 0xfe]), 'text in UTF-16'],
    ['UTF-16, high byte first', utf16('title: a', [0xfe, 0xff]), 'text in UTF-16'],
    ['UTF-16 without a mark', utf16('title: a', []), 'text in UTF-16'],
    ['UTF-32', Uint8Array.from([0xff, 0xfe, 0, 0, 65, 0, 0, 0]), 'text in UTF-32'],
    ['a spreadsheet', Uint8Array.from([0x50, 0x4b, 3, 4, 20]), 'a zip archive or spreadsheet'],
    ['a packed file', Uint8Array.from([0x1f, 0x8b, 8]), 'compressed data (gzip)'],
  ])('names and refuses %s', (_, content, found) => {
    expect(decodeText(content, 100)).toMatchObject({ ok: false, found })
  })

  it('names byte and line where Latin-1 stops being UTF-8', () => {
    const latin = Uint8Array.from([...bytes('ball,net\nA1,D'), 0xdc, ...bytes('0\n')])
    const result = decodeText(latin, 100)
    expect(result).toMatchObject({ ok: false, line: 2 })
    expect(result.ok || result.found).toContain('byte 14')
  })

  it('finds a file that ends inside a character', () => {
    expect(decodeText(Uint8Array.from([65, 0xc3]), 100)).toMatchObject({ ok: false, line: 1 })
  })

  it('refuses a binary file by its zero characters', () => {
    expect(decodeText('abcdefgh\u0000', 100)).toMatchObject({ ok: false })
  })

  it('refuses what is too large before it looks at anything', () => {
    const result = decodeText(new Uint8Array(10_000_000), 10_000_000)
    expect(result).toMatchObject({ ok: false, found: 'a file of 10.0 MB', allowed: 'less than 10 MB' })
  })
})
