import { unit } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { DIMENSION_WORDS, type Dimension } from '../../src/units/dimension.ts'
import { mayStandFor, plainSpelling, siFactor, toSi, unitList, UNITS } from '../../src/units/unitTable.ts'

/** SI unit of each dimension as mathjs writes it. */
const SI: Readonly<Record<string, string>> = {
  length: 'm',
  time: 's',
  frequency: 'Hz',
  impedance: 'ohm',
  angle: 'rad',
  'bit rate': 'b/s',
  'delay per length': 's/m',
  resistivity: 'ohm m',
}

/** Spellings that mathjs lacks or reads otherwise (oz is a mass, T a tesla), each checked by hand below. */
const OTHERWISE = new Set(
  'micron|microns|mils|thou|"|uin|Ohm|Ohms|ohms|%|ppm|°|ohmm|uohmcm|nohmm|Gbit/s|Mbit/s|kbit/s|Tbit/s|bit/s'.split(
    '|',
  ),
)

const known = [...UNITS].filter(
  ([name, entry]) => entry.dimension in SI && !OTHERWISE.has(name) && !/bps$|T\/s$|°/.test(name),
)

describe('the table of units', () => {
  it.each(known)('agrees with mathjs on %s', (name, entry) => {
    const oracle = unit(`1 ${name}`).toNumber(SI[entry.dimension] ?? '')
    expect(siFactor(entry) / oracle).toBeCloseTo(1, 14)
  })

  it('has most of its units in common with mathjs', () => {
    expect(known.length).toBeGreaterThan(40)
  })

  it.each([
    // 1 mil = 0.001 in and 1 in = 25.4 mm exactly: international yard and pound agreement, 1959.
    ['thou', 25.4e-6],
    ['mils', 25.4e-6],
    ['"', 25.4e-3],
    ['uin', 25.4e-9],
    ['micron', 1e-6],
    ['microns', 1e-6],
    // SI brochure, 9th edition, 2019: prefixes.
    ['ohms', 1],
    ['Ohm', 1],
    ['Ohms', 1],
    ['%', 0.01],
    ['ppm', 1e-6],
    ['°', Math.PI / 180],
    ['ohmm', 1],
    ['uohmcm', 1e-8],
    ['nohmm', 1e-9],
    ['Gbps', 1e9],
    ['Gbit/s', 1e9],
    ['GT/s', 1e9],
    ['MT/s', 1e6],
    ['Mbps', 1e6],
    ['kbps', 1e3],
    ['Tbps', 1e12],
    ['bit/s', 1],
    ['bps', 1],
    ['GBd', 1e9],
    ['GBaud', 1e9],
    ['MBd', 1e6],
    ['kBd', 1e3],
    ['Bd', 1],
    ['TBd', 1e12],
    // 1 Np = 20 / ln 10 dB = 8.685 889 638 dB: ISO 80000-3:2006, annex C.
    ['dB/m', 1 / 8.685889638065035],
    ['dB/mm', 1e3 / 8.685889638065035],
    ['dB/cm', 1e2 / 8.685889638065035],
    ['dB/in', 1 / 8.685889638065035 / 0.0254],
    ['Np/m', 1],
    // IPC-4562 (2000): 1 oz/ft² foil is 34.3 um nominal.
    ['oz', 34.3e-6],
    ['oz/ft²', 34.3e-6],
    ['oz/ft^2', 34.3e-6],
  ])('gives %s its value in SI', (name, expected) => {
    const entry = UNITS.get(name)
    expect(entry === undefined ? Number.NaN : siFactor(entry) / expected).toBeCloseTo(1, 14)
  })

  it('takes one ounce per square foot of copper for about its mass over its density', () => {
    // 28.349523125 g (avoirdupois ounce) on 0.09290304 m², density of copper 8.96 g/cm³ (CRC Handbook): 34.06 um.
    const byDensity = 28.349523125e-3 / 0.09290304 / 8960
    const entry = UNITS.get('oz')
    expect(entry === undefined ? 0 : siFactor(entry) / byDensity).toBeCloseTo(1, 1)
  })

  it.each(['mW', 'MM', 'Mm', 'PS', 'GB/s', 'T', 'kg', 'g', 'W', 'V', '', 'constructor', '__proto__'])(
    'does not know %j, no unit of a board',
    (name) => {
      expect(UNITS.has(name)).toBe(false)
    },
  )

  it.each(Object.entries(DIMENSION_WORDS))(
    'lists the usual unit of %s first, and reads its example',
    (name, words) => {
      const dimension = name as Dimension
      expect(unitList(dimension).split(', ')[0]).toBe(words.usualUnit)
      const entry = UNITS.get(words.example.slice(words.example.indexOf(' ') + 1))
      expect(entry !== undefined && mayStandFor(entry, dimension)).toBe(true)
    },
  )

  it('lets copper weight stand for a copper thickness and for nothing else', () => {
    const ounce = UNITS.get('oz')
    const dimensions = Object.keys(DIMENSION_WORDS) as Dimension[]
    const served = ounce === undefined ? [] : dimensions.filter((dimension) => mayStandFor(ounce, dimension))
    expect(served).toEqual(['copper thickness'])
  })
})

describe('toSi', () => {
  it('rounds once where the factor is a power of ten', () => {
    const um = UNITS.get('um')
    for (let value = 1; value <= 2000; value += 1) {
      expect(um === undefined ? 0 : toSi(value, um)).toBe(Number(`${value}e-6`))
    }
  })
})

describe('plainSpelling', () => {
  it('has one spelling for both micro signs, both ohm signs, true minus and no-break space', () => {
    expect(plainSpelling('5\u00A0\u00B5m')).toBe('5 um')
    expect(plainSpelling('5 \u03BCm')).toBe('5 um')
    expect(plainSpelling('50 k\u03A9')).toBe('50 kohm')
    expect(plainSpelling(' 50\t\u2126 ')).toBe('50 ohm')
    expect(plainSpelling('\u22125 um')).toBe('-5 um')
    expect(plainSpelling('1 \u03A9\u00B7m')).toBe('1 ohm m')
  })
})
