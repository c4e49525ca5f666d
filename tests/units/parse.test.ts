import { describe, expect, it } from 'vitest'
import { parseQuantity, type Arithmetic, type Dimension } from '../../src/units/parse.ts'

const noArithmetic: Arithmetic = {
  evaluate: (text) => {
    throw new Error(`arithmetic must not be asked about ${text}`)
  },
}

function read(text: unknown, dimension: Dimension = 'length') {
  return parseQuantity(text, dimension, noArithmetic)
}

function refusal(text: unknown, dimension: Dimension = 'length') {
  const reading = read(text, dimension)
  return reading.ok ? `accepted as ${reading.value}` : `${reading.found}: ${reading.allowed}`
}

describe('parseQuantity', () => {
  it.each<[string, Dimension, number]>([
    ['0.1 mm', 'length', 1e-4],
    ['0.1mm', 'length', 1e-4],
    ['75 um', 'length', 75e-6],
    ['75 \u00B5m', 'length', 75e-6],
    ['75 \u03BCm', 'length', 75e-6],
    ['5 mil', 'length', 1.27e-4],
    ['4thou', 'length', 1.016e-4],
    ['0.5"', 'length', 0.0127],
    ['1e-4 m', 'length', 1e-4],
    ['1.5E2 nm', 'length', 1.5e-7],
    ['.5 mm', 'length', 5e-4],
    ['5. mm', 'length', 5e-3],
    ['-5 um', 'length', -5e-6],
    ['\u22125 um', 'length', -5e-6],
    ['+5 um', 'length', 5e-6],
    ['  5   um  ', 'length', 5e-6],
    ['0 mm', 'length', 0],
    ['0.5 oz', 'copper thickness', 17.15e-6],
    ['1 oz/ft\u00B2', 'copper thickness', 34.3e-6],
    ['1 oz/ft^2', 'copper thickness', 34.3e-6],
    ['35 um', 'copper thickness', 35e-6],
    ['60 ps', 'time', 60e-12],
    ['1 GHz', 'frequency', 1e9],
    ['50', 'ratio', 50],
    ['10 %', 'ratio', 0.1],
    ['10%', 'ratio', 0.1],
    ['25 ppm', 'ratio', 25e-6],
    ['50 ohm', 'impedance', 50],
    ['50 Ohms', 'impedance', 50],
    ['50 \u03A9', 'impedance', 50],
    ['50\u2126', 'impedance', 50],
    ['5 m\u03A9', 'impedance', 5e-3],
    ['3.2 Gb/s', 'bit rate', 3.2e9],
    ['3.2 Gbps', 'bit rate', 3.2e9],
    ['16 GT/s', 'bit rate', 16e9],
    ['800 Mb / s', 'bit rate', 800e6],
    ['28 GBd', 'symbol rate', 28e9],
    ['70 deg', 'angle', (70 * Math.PI) / 180],
    ['6.9 ps/mm', 'delay per length', 6.9e-9],
    ['1.7241e-8 ohm m', 'resistivity', 1.7241e-8],
    ['1.7241 \u00B5\u03A9\u00B7cm', 'resistivity', 1.7241e-8],
  ])('reads %s as %s', (text, dimension, value) => {
    const reading = read(text, dimension)
    expect(reading).toEqual({ ok: true, value: expect.closeTo(value, 20) as number })
    expect(reading.ok && value !== 0 ? reading.value / value : 1).toBeCloseTo(1, 14)
  })

  it('reads 1 dB/in as 4.53 Np/m', () => {
    // 1 / 8.685 889 638 Np over 0.0254 m (ISO 80000-3:2006, annex C).
    const reading = read('1 dB/in', 'attenuation')
    expect(reading.ok ? reading.value : 0).toBeCloseTo(1 / 8.685889638065035 / 0.0254, 13)
  })

  it('takes a number of the description for a ratio and refuses it for anything else', () => {
    expect(read(0.25, 'ratio')).toEqual({ ok: true, value: 0.25 })
    expect(refusal(0.1)).toBe('0.1 without a unit: write 0.1 mm, not 0.1 (the unit must be said)')
    expect(refusal('0.1')).toBe('0.1 without a unit: write 0.1 mm, not 0.1 (the unit must be said)')
    expect(refusal(80)).toContain('write 80 um, not 80')
    expect(refusal(50, 'impedance')).toContain('write 50 ohm, not 50')
  })

  it('says what a quantity of another kind is, and what is wanted', () => {
    expect(refusal('5 ps')).toMatch(/^5 ps, which is a time: a length such as 0\.1 mm \(mm, um, mil, in/)
    expect(refusal('0.5 oz')).toMatch(/^0\.5 oz, which is a copper weight: a length such as 0\.1 mm/)
    expect(refusal('1 GHz', 'time')).toMatch(/^1 GHz, which is a frequency: a time such as/)
    expect(refusal('5 %')).toMatch(/^5 %, which is a ratio: a length/)
  })

  it('asks for a decimal point where a comma stands', () => {
    expect(refusal('0,1 mm')).toBe('"0,1 mm": a decimal point and no comma; write 0.1 mm')
    expect(refusal('1,000.5 um')).toBe('"1,000.5 um": a decimal point and no comma')
  })

  it('minds upper and lower case, and says the spelling it knows', () => {
    expect(refusal('5 MM')).toContain('write mm, not MM')
    expect(refusal('5 ghz', 'frequency')).toContain('write GHz, not ghz')
    expect(refusal('3 GB/s', 'bit rate')).toContain('bits are b, bytes are not counted here')
  })

  it.each<[unknown, string]>([
    ['', 'an empty text'],
    ['   ', 'an empty text'],
    [null, 'nothing'],
    [undefined, 'nothing'],
    [true, 'true'],
    [['5 mm'], 'a list'],
    [{ value: 5 }, 'a group of keys'],
    [Number.NaN, 'NaN'],
    [Infinity, 'Infinity'],
    ['x'.repeat(10_000), 'a text of 10000 characters'],
    ['5 zz', '"5 zz", in which "zz" is no known unit'],
    ['5 mW', '"5 mW", in which "mW" is no known unit'],
    ['NaN mm', '"NaN mm", in which "NaN" is no known unit'],
    ['Infinity mm', '"Infinity mm", in which "Infinity" is no known unit'],
    ['0x10 mm', '"0x10 mm", in which "x10" is no known unit'],
    ['1e999 mm', '"1e999 mm"'],
    ['1e-999 mm', '"1e-999 mm"'],
    ['1e307 GHz', '1e307 GHz, which is a frequency'],
    ['5 mm^2', '"5 mm^2", in which "mm^2" is no known unit'],
    ['1.2.3 mm', '"1.2.3 mm", with no + - * / between "1.2" and ".3"'],
    ['mm', '"mm", with no number before "mm"'],
    ['5 mm 2', '"5 mm 2", with no + - * / between "mm" and "2"'],
    ['5 constructor', '"5 constructor", in which "constructor" is no known unit'],
    ['5 __proto__', '"5 __proto__", in which "__proto__" is no known unit'],
    ['5 \u{1F600}', '"5 \u{1F600}", in which "\u{1F600}" has no place'],
  ])('refuses %j and says what it found', (text, found) => {
    const reading = read(text)
    expect(reading).toMatchObject({ ok: false, found })
    expect(reading.ok ? '' : reading.allowed.length).toBeGreaterThan(10)
  })

  it('refuses a value that SI cannot hold', () => {
    expect(read('1e307 GHz', 'frequency')).toMatchObject({ ok: false, found: '"1e307 GHz"' })
    expect(read('NaN', 'ratio').ok).toBe(false)
    expect(read(Number.NaN, 'ratio').ok).toBe(false)
    expect(read('1e999', 'ratio').ok).toBe(false)
  })

  it('asks for arithmetic only where the text is arithmetic on known units', () => {
    expect(parseQuantity('0.8 mm - 0.4 mm', 'length', null)).toMatchObject({
      ok: false,
      needsArithmetic: true,
    })
    expect(parseQuantity('1/6', 'ratio', null)).toMatchObject({ ok: false, needsArithmetic: true })
    expect(parseQuantity('sqrt(4) mm', 'length', null)).not.toHaveProperty('needsArithmetic')
    expect(parseQuantity('0.8 zz - 1 mm', 'length', null)).not.toHaveProperty('needsArithmetic')
    expect(parseQuantity('5 ps', 'length', null)).not.toHaveProperty('needsArithmetic')
  })

  it('shortens a foreign text before repeating it', () => {
    expect(refusal(`5 ${'z'.repeat(150)}`).length).toBeLessThan(250)
  })
})
