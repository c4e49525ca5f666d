import { DIMENSION_WORDS, type Dimension } from './dimension.ts'
import { readExpression } from './expression.ts'
import * as message from './messages.ts'

import { readNumber } from './tokens.ts'
import { mayStandFor, plainSpelling, toSi, UNITS } from './unitTable.ts'

export type { Dimension } from './dimension.ts'

/** A quantity in SI, or what was found and what is allowed instead. */
export type QuantityReading = { readonly ok: true; readonly value: number } | QuantityRefusal

export interface QuantityRefusal {
  readonly ok: false
  readonly found: string
  readonly allowed: string
  /** True where the text is arithmetic: read it again with an `Arithmetic` at hand. */
  readonly needsArithmetic?: true
}

/** Evaluates sums and products of quantities; `arithmetic.ts` has the one in use, loaded when first needed. */
export interface Arithmetic {
  /** SI value of a text such as `0.8 mm - 0.4 mm`, refused unless it has the wanted dimension. */
  evaluate(text: string, dimension: Dimension): QuantityReading
}

/** Longest text that is looked at. */
export const MAX_QUANTITY_LENGTH = 200

const QUANTITY = /^([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?) ?(.*)$/

/**
 * Reads `<number> <unit>` into SI by the table of `unitTable.ts`. A ratio may be a bare number,
 * every other dimension must carry its unit. Sums and products of quantities go to `arithmetic`;
 * with null they come back with `needsArithmetic`.
 */
export function parseQuantity(
  text: unknown,
  dimension: Dimension,
  arithmetic: Arithmetic | null,
): QuantityReading {
  if (typeof text === 'number') return readBareNumber(text, String(text), dimension)
  if (typeof text !== 'string') return refuse(message.notText(text), message.wanted(dimension))
  if (text.length > MAX_QUANTITY_LENGTH) {
    return refuse(message.tooLong(text.length), message.shorter(MAX_QUANTITY_LENGTH, dimension))
  }
  const plain = plainSpelling(text)
  if (plain === '') return refuse('an empty text', message.wanted(dimension))
  if (plain.includes(',')) return refuse(message.quoted(text), message.decimalPoint(plain))
  return readPlain(plain, dimension, arithmetic)
}

function readPlain(plain: string, dimension: Dimension, arithmetic: Arithmetic | null): QuantityReading {
  const [, digits = '', spelling = ''] = QUANTITY.exec(plain) ?? []
  if (digits !== '' && spelling === '') return readBareNumber(readNumber(digits), digits, dimension)
  const unit = UNITS.get(spelling.replace(/ ?\/ ?/g, '/'))
  if (digits === '' || unit === undefined) return readArithmetic(plain, dimension, arithmetic)
  if (!mayStandFor(unit, dimension)) {
    return refuse(message.otherDimension(plain, unit.dimension), message.wanted(dimension))
  }
  const value = toSi(readNumber(digits), unit)
  return Number.isFinite(value)
    ? { ok: true, value }
    : refuse(message.quoted(plain), message.inRange(dimension))
}

function readBareNumber(value: number, digits: string, dimension: Dimension): QuantityReading {
  if (!Number.isFinite(value)) return refuse(digits, message.inRange(dimension))
  if (dimension === 'ratio') return { ok: true, value }
  return refuse(message.withoutUnit(digits), message.withUnit(digits, likelyUnit(value, dimension)))
}

function readArithmetic(plain: string, dimension: Dimension, arithmetic: Arithmetic | null): QuantityReading {
  const expression = readExpression(plain, dimension)
  if (!expression.ok) return expression
  if (arithmetic === null) {
    return { ...refuse(message.quoted(plain), message.wanted(dimension)), needsArithmetic: true }
  }
  return arithmetic.evaluate(plain, dimension)
}

function refuse(found: string, allowed: string): QuantityRefusal {
  return { ok: false, found, allowed }
}

/** A bare length from 10 up was hardly meant in millimetres where traces and dielectrics are described. */
function likelyUnit(value: number, dimension: Dimension): string {
  if (dimension === 'length' && Math.abs(value) >= 10) return 'um'
  return DIMENSION_WORDS[dimension].usualUnit
}
