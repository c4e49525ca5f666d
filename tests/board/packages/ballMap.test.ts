import { readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { describe, expect, it } from 'vitest'
import { readBallMap } from '../../../src/board/packages/ballMap.ts'

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text)

function rows(text: string): string[] {
  const map = readBallMap('u1.csv', bytes(text))
  return map.rows.map(({ ball, net, pinFunction, line }) =>
    [line, ball, net ?? '-', pinFunction ?? '-'].join(' '),
  )
}

function faults(text: string | Uint8Array): string[] {
  const { issues } = readBallMap('u1.csv', typeof text === 'string' ? bytes(text) : text)
  return issues.map(({ file, line, message }) => `${file} ${String(line)} ${message}`)
}

describe('a ball map', () => {
  it.each([
    ['commas', 'ball,net\nA1,DQ0\nA2,DQ1\n'],
    ['semicolons', 'ball;net\nA1;DQ0\nA2;DQ1\n'],
    ['tabs', 'ball\tnet\nA1\tDQ0\nA2\tDQ1\n'],
    ['Windows line ends', 'ball,net\r\nA1,DQ0\r\nA2,DQ1\r\n'],
    ['a byte order mark', '\uFEFFball,net\nA1,DQ0\nA2,DQ1\n'],
    ['blanks and quotes', ' Ball , Net \n "a1" , DQ0\nA2,"DQ1"'],
    ['other names', 'Pin Number,Signal_Name\nA1,DQ0\nA2,DQ1\n'],
    ['the columns turned', 'Bank,NET,Position\n0,DQ0,A1\n0,DQ1,A2\n'],
  ])('is read with %s', (_, text) => {
    expect(rows(text)).toEqual(['2 A1 DQ0 -', '3 A2 DQ1 -'])
  })

  it('may have title rows, comments and empty lines, and keeps its line numbers', () => {
    const text =
      'Ball map of U1, revision 3\nmade by hand\n# a remark\n\nball,net,pin_function\nA1,DQ0,IO_1\n# another\n\nA2,,GND\n'
    expect(rows(text)).toEqual(['6 A1 DQ0 IO_1', '9 A2  GND'])
  })

  it('keeps a # inside a name', () => {
    expect(rows('ball,net\nA1,CS#\n')).toEqual(['2 A1 CS# -'])
  })

  it('takes the function where it has no nets', () => {
    const map = readBallMap('u1.csv', bytes('pin,bank,pin_function\nA1,35,IO_L9N\n'))
    expect(map).toMatchObject({
      hasNets: false,
      rows: [{ ball: 'A1', net: null, pinFunction: 'IO_L9N', bank: '35' }],
    })
  })

  it('gives bare coordinates the unit of their heading, millimetres where it has none', () => {
    const read = (head: string): unknown => {
      const [row] = readBallMap('u1.csv', bytes(`ball,net,${head}\nA1,X,-3.5,0.5 mm\n`)).rows
      return [row?.x, row?.y]
    }
    expect(read('x,y')).toEqual(['-3.5 mm', '0.5 mm'])
    expect(read('X (mil),Y (mil)')).toEqual(['-3.5 mil', '0.5 mm'])
    expect(read('x_um,y_um')).toEqual(['-3.5 um', '0.5 mm'])
  })

  // CC0 ball maps of the f4pga project; the counts are those of bonded input and output balls there.
  it.each([
    ['xc7z020clg400-1.csv', 257],
    ['csfbga285.csv', 118],
  ])('is read from the open map %s', (file, count) => {
    const path = resolve(import.meta.dirname, '../../../reference/boards/ball-maps', file)
    const map = readBallMap(file, readFileSync(path))
    expect(map.issues).toEqual([])
    expect(map.rows).toHaveLength(count)
    expect(map.rows.every(({ ball }) => /^[A-Y]{1,2}\d+$/.test(ball))).toBe(true)
  })

  it('names every bad row with its line', () => {
    expect(faults('ball,net\nA1,X\nI3,Y\nA1,Z\n,Q\nA2,ok\n')).toEqual([
      expect.stringContaining('u1.csv 3 u1.csv line 3 has "I3", which is no ball name'),
      'u1.csv 4 u1.csv line 4 lists ball A1 again; it is already in line 2.',
      expect.stringContaining('u1.csv 5 u1.csv line 5 has no ball name'),
    ])
  })

  it.each([
    ['no headings', 'A1,DQ0\nA2,DQ1\n', 'no row of headings'],
    ['a ball column alone', 'ball,bank\nA1,3\n', 'no row of headings'],
    ['nothing', '', 'no row of headings'],
    ['an open quote', 'ball,net\n"A1,DQ0\n', 'no CSV'],
    ['UTF-16', Uint8Array.from([0xff, 0xfe, 0x62, 0]), 'text in UTF-16'],
    ['Latin-1', Uint8Array.from([...bytes('ball,net\nA1,D'), 0xdc, 10]), 'another encoding than UTF-8'],
    ['five megabytes', 'x'.repeat(5_000_000), 'a file of 5.0 MB'],
  ])('is refused with %s, by its own file name', (_, text, message) => {
    const found = faults(text)
    expect(found).toHaveLength(1)
    expect(found[0]).toContain(message)
    expect(found[0]).toMatch(/^u1\.csv /)
  })
})
