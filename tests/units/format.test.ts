import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  formatBitRate,
  formatCapacitancePerLength,
  formatDelayPerLength,
  formatFrequency,
  formatInductancePerLength,
  formatLength,
  formatLoss,
  formatNumber,
  formatOhms,
  formatOhmsWithBand,
  formatPercent,
  formatSignedPercent,
  formatSymbolRate,
  formatTime,
} from '../../src/units/format.ts'
import { parseQuantity, type Dimension } from '../../src/units/parse.ts'

describe('formatLength', () => {
  it.each<[number, string, string]>([
    // By 25.4 mm to the inch.
    [0.1016e-3, '0.102 mm', '4.0 mil'],
    [0.1e-3, '0.100 mm', '3.94 mil'],
    [0.254e-3, '0.254 mm', '10.0 mil'],
    [0.65e-3, '0.650 mm', '25.6 mil'],
    [12.7e-3, '12.700 mm', '500.0 mil'],
    [1.5e-6, '0.0015 mm', '0.059 mil'],
    [0.5e-6, '0.0005 mm', '0.02 mil'],
    [9.9999e-6, '0.010 mm', '0.39 mil'],
    [2.5399e-6, '0.0025 mm', '0.1 mil'],
    [0, '0.000 mm', '0.0 mil'],
    [3e-19, '0.000 mm', '0.0 mil'],
    [-30e-6, '-0.030 mm', '-1.18 mil'],
  ])('prints %s m as %s or %s', (metres, mm, mil) => {
    expect(formatLength(metres, 'mm')).toBe(mm)
    expect(formatLength(metres, 'mil')).toBe(mil)
  })
})

describe('the other formatters', () => {
  it('print ohms with one decimal, and the band beside them', () => {
    expect(formatOhms(50.31)).toBe('50.3 ohm')
    expect(formatOhms(0.0512)).toBe('0.051 ohm')
    expect(formatOhms(0)).toBe('0.0 ohm')
    expect(formatOhms(1234.6)).toBe('1235 ohm')
    expect(formatOhmsWithBand(50.31, 0.01)).toBe('50.3 ohm ± 1.0 %')
  })

  it('print times in picoseconds up to a nanosecond', () => {
    expect(formatTime(12.4e-12)).toBe('12.4 ps')
    expect(formatTime(0.4e-12)).toBe('0.40 ps')
    expect(formatTime(9.996e-12)).toBe('10.0 ps')
    expect(formatTime(149.6e-12)).toBe('150 ps')
    expect(formatTime(999.6e-12)).toBe('1.00 ns')
    expect(formatTime(1.234e-9)).toBe('1.23 ns')
    expect(formatTime(2.5e-6)).toBe('2.50 us')
    expect(formatTime(0)).toBe('0.00 ps')
    expect(formatTime(-60e-12)).toBe('-60.0 ps')
  })

  it('print frequencies and rates with the prefix of three digits', () => {
    expect(formatFrequency(1e9)).toBe('1 GHz')
    expect(formatFrequency(3.125e9)).toBe('3.13 GHz')
    expect(formatFrequency(50)).toBe('50 Hz')
    expect(formatBitRate(3.2e9)).toBe('3.2 Gb/s')
    expect(formatBitRate(10.3125e9)).toBe('10.3125 Gb/s')
    expect(formatSymbolRate(28e9)).toBe('28 GBd')
  })

  it('print ratios, plain numbers, delay and loss', () => {
    expect(formatPercent(0.12)).toBe('12.0 %')
    expect(formatPercent(-0.0567, 2)).toBe('-5.67 %')
    expect(formatSignedPercent(0.12)).toBe('+12.0 %')
    expect(formatSignedPercent(-0.12)).toBe('-12.0 %')
    expect(formatSignedPercent(0)).toBe('0.0 %')
    expect(formatNumber(0.12391)).toBe('0.124')
    expect(formatNumber(3.6)).toBe('3.60')
    expect(formatNumber(123456)).toBe('123000')
    expect(formatNumber(1.7241e-8)).toBe('1.72e-8')
    expect(formatNumber(0)).toBe('0')
    expect(formatNumber(2.5, 1)).toBe('3')
    expect(formatDelayPerLength(6.9e-9, 'mm')).toBe('6.9 ps/mm')
    expect(formatDelayPerLength(6.9e-9, 'mil')).toBe('175 ps/in')
    // 8.685 889 638 dB to the neper: ISO 80000-3:2006, annex C.
    expect(formatLoss(12 / 8.685889638, 'mm')).toBe('0.012 dB/mm')
    expect(formatLoss(12 / 8.685889638, 'mil')).toBe('0.30 dB/in')
    expect(formatLoss(0.4 / 8.685889638, 'mm')).toBe('0.0004 dB/mm')
    expect(formatCapacitancePerLength(130.04e-12)).toBe('130 pF/m')
    expect(formatInductancePerLength(325.1e-9)).toBe('325 nH/m')
    expect(formatLoss(0, 'mil')).toBe('0.00 dB/in')
  })

  const formatters: readonly [string, (value: number) => string][] = [
    ['formatLength', (value) => formatLength(value, 'mm')],
    ['formatLength in mil', (value) => formatLength(value, 'mil')],
    ['formatOhms', formatOhms],
    ['formatOhmsWithBand', (value) => formatOhmsWithBand(50, value)],
    ['formatTime', formatTime],
    ['formatFrequency', formatFrequency],
    ['formatBitRate', formatBitRate],
    ['formatSymbolRate', formatSymbolRate],
    ['formatPercent', (value) => formatPercent(value)],
    ['formatSignedPercent', (value) => formatSignedPercent(value)],
    ['formatNumber', (value) => formatNumber(value)],
    ['formatDelayPerLength', (value) => formatDelayPerLength(value, 'mm')],
    ['formatCapacitancePerLength', formatCapacitancePerLength],
    ['formatInductancePerLength', formatInductancePerLength],
    ['formatLoss', (value) => formatLoss(value, 'mil')],
  ]
  it.each(formatters)('%s never prints NaN or infinity', (_, formatter) => {
    for (const value of [NaN, Infinity, -Infinity]) expect(() => formatter(value)).toThrow(RangeError)
  })

  it('refuse a negative band', () => {
    expect(() => formatOhmsWithBand(50, -0.01)).toThrow('error band must not be negative, got -0.01')
  })
})

/** Half of the last digit that a format promises, in SI. */
type Rounding = (size: number) => number

const INCH = 0.0254
const DECIBEL = 1 / 8.685889638065035

const decimals =
  (step: number, finest: number, digits: number): Rounding =>
  (size) =>
    size < finest ? significant(digits)(size) : step / 2
const significant =
  (digits: number): Rounding =>
  (size) =>
    10 ** (Math.floor(Math.log10(size) + 1e-9) - digits + 1) / 2

const ROUND_TRIPS: readonly [string, Dimension, (value: number) => string, number, number, Rounding][] = [
  ['length in mm', 'length', (value) => formatLength(value, 'mm'), 1e-6, 0.1, decimals(1e-6, 1e-5, 2)],
  ['length in mil', 'length', (value) => formatLength(value, 'mil'), 3e-6, 2.5e-4, () => 0.005e-3 * INCH],
  ['long length in mil', 'length', (value) => formatLength(value, 'mil'), 2.6e-4, 0.1, () => 0.05e-3 * INCH],
  ['impedance', 'impedance', formatOhms, 0.01, 999, decimals(0.1, 1, 2)],
  ['time', 'time', formatTime, 1e-12, 9e-12, () => 0.005e-12],
  ['time of some picoseconds', 'time', formatTime, 10e-12, 1e-5, significant(3)],
  ['frequency', 'frequency', formatFrequency, 1e3, 1e12, significant(3)],
  ['bit rate', 'bit rate', formatBitRate, 1e6, 1e12, significant(6)],
  ['symbol rate', 'symbol rate', formatSymbolRate, 1e6, 1e12, significant(6)],
  ['ratio', 'ratio', (value) => formatPercent(value), 0.01, 10, () => 0.0005],
  ['bare ratio', 'ratio', (value) => formatNumber(value), 1e-9, 1e9, significant(3)],
  ['delay', 'delay per length', (value) => formatDelayPerLength(value, 'mm'), 3e-9, 2e-8, () => 0.05e-9],
  [
    'delay in inches',
    'delay per length',
    (value) => formatDelayPerLength(value, 'mil'),
    3e-9,
    2e-8,
    () => 0.5e-12 / INCH,
  ],
  ['loss', 'attenuation', (value) => formatLoss(value, 'mm'), 0.1, 100, decimals(DECIBEL, 10 * DECIBEL, 2)],
  [
    'loss in inches',
    'attenuation',
    (value) => formatLoss(value, 'mil'),
    0.5,
    100,
    () => 0.005 * (DECIBEL / INCH),
  ],
]

describe('a printed quantity', () => {
  it.each(ROUND_TRIPS)(
    'of %s is read back within half its last digit',
    (_, dimension, formatter, min, max, rounding) => {
      const sizes = fc.double({ min: Math.log(min), max: Math.log(max), noNaN: true })
      fc.assert(
        fc.property(sizes, fc.boolean(), (logarithm, negative) => {
          const value = Math.exp(logarithm) * (negative ? -1 : 1)
          const text = formatter(value)
          const reading = parseQuantity(text, dimension, null)
          const error = reading.ok ? Math.abs(reading.value - value) : NaN
          expect({ text, within: error / rounding(Math.abs(value)) <= 1 + 1e-9 }).toEqual({
            text,
            within: true,
          })
        }),
        { seed: 20261125, numRuns: 500 },
      )
    },
  )
})
