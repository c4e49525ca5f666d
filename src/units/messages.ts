import { DIMENSION_WORDS, type Dimension } from './dimension.ts'
import { unitList, UNITS, type UnitEntry } from './unitTable.ts'

/** Longest piece of foreign text that a message repeats. */
const MAX_QUOTE = 40

/** `"5 zz"`, shortened where long. */
export function quoted(text: string): string {
  const shown = text.length > MAX_QUOTE ? `${text.slice(0, MAX_QUOTE)}…` : text
  return `"${shown}"`
}

/** `a length such as 0.1 mm (mm, um, mil, in, m, cm, nm, uin)`. */
export function wanted(dimension: Dimension): string {
  const { noun, example } = DIMENSION_WORDS[dimension]
  return `${noun} such as ${example} (${unitList(dimension)}${dimension === 'ratio' ? ' or a bare number' : ''})`
}

export function notText(value: unknown): string {
  if (value === null || value === undefined) return 'nothing'
  if (Array.isArray(value)) return 'a list'
  if (typeof value === 'object') return 'a group of keys'
  return typeof value === 'boolean' || typeof value === 'bigint' ? String(value) : `a ${typeof value}`
}

export function tooLong(length: number): string {
  return `a text of ${length} characters`
}

export function shorter(max: number, dimension: Dimension): string {
  const { noun, example } = DIMENSION_WORDS[dimension]
  return `${noun} such as ${example}, in at most ${max} characters`
}

export function decimalPoint(plain: string): string {
  const pointed = /^[+-]?\d+,\d+( ?[^\d,]*)$/.test(plain) ? `; write ${plain.replace(',', '.')}` : ''
  return `a decimal point and no comma${pointed}`
}

export function otherDimension(plain: string, dimension: UnitEntry['dimension']): string {
  return `${plain}, which is ${dimension === 'copper weight' ? 'a copper weight' : DIMENSION_WORDS[dimension].noun}`
}

export function inRange(dimension: Dimension): string {
  return `${wanted(dimension)}, neither too large nor too small for a computer to hold`
}

export function withoutUnit(digits: string): string {
  return `${digits} without a unit`
}

export function withUnit(digits: string, unit: string): string {
  return `write ${digits} ${unit}, not ${digits} (the unit must be said)`
}

export function unknownUnit(plain: string, word: string): string {
  return `${quoted(plain)}, in which ${quoted(word)} is no known unit`
}

/** The wanted dimension, and the spelling that the word was near: `MM` is `mm` written otherwise. */
export function knownUnit(word: string, dimension: Dimension): string {
  if (/^[kMGT]?B(\/s|ps)$/.test(word)) return `${wanted(dimension)}; bits are b, bytes are not counted here`
  const near = [...UNITS.keys()].find((name) => name !== word && name.toLowerCase() === word.toLowerCase())
  return near === undefined ? wanted(dimension) : `${wanted(dimension)}; write ${near}, not ${word}`
}

export function forbidden(plain: string, character: string): string {
  return `${quoted(plain)}, in which "${character}" has no place`
}

export function onlyArithmetic(dimension: Dimension): string {
  return `${wanted(dimension)}, or numbers with units joined by + - * / and parentheses`
}

export function missingOperator(plain: string, before: string, after: string): string {
  return `${quoted(plain)}, with no + - * / between "${before}" and "${after}"`
}

export function withoutNumber(plain: string, unit: string): string {
  return `${quoted(plain)}, with no number before "${unit}"`
}

export function tooDeep(plain: string, max: number): string {
  return `${quoted(plain)}, with parentheses nested deeper than ${max}`
}

export function incomplete(plain: string): string {
  return `${quoted(plain)}, which is not complete`
}

export function mixed(plain: string): string {
  return `${quoted(plain)}, which adds quantities of different kinds`
}

export function resultIs(plain: string, noun: string): string {
  return `${quoted(plain)}, which is ${noun}`
}

export function notFinite(plain: string): string {
  return `${quoted(plain)}, which is not finite`
}

export function outOfRange(plain: string, digits: string): string {
  return `${quoted(plain)}, in which "${digits}" is a number that a computer cannot hold`
}

export function misplacedWeight(plain: string, unit: string): string {
  return `${quoted(plain)}, in which "${unit}" is a copper weight`
}
