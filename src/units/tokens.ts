import type { Dimension } from './dimension.ts'
import * as message from './messages.ts'
import { UNITS, type UnitEntry } from './unitTable.ts'

/** A piece of arithmetic on quantities. */
export type Token =
  | { readonly kind: 'number'; readonly text: string }
  | { readonly kind: 'unit'; readonly text: string; readonly unit: UnitEntry }
  | { readonly kind: 'operator' | 'parenthesis'; readonly text: string }

export type Tokens =
  | { readonly ok: true; readonly tokens: readonly Token[] }
  | { readonly ok: false; readonly found: string; readonly allowed: string }

/** Infinity for a number outside what a double holds, too small ones included. */
export function readNumber(digits: string): number {
  const value = Number(digits)
  const vanished = value === 0 && /[1-9]/.test(digits.replace(/[eE].*/, ''))
  return vanished ? Infinity : value
}

const NUMBER = /(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/y
const WORD = /[\p{L}_$%"°][\p{L}\p{N}_$^]*(?:\/s\b)?/uy

/** Longest first, so that `ps/mm` is read before `ps`, and a unit is never cut short: `mm` is not `m`. */
const SPELLINGS = [...UNITS.keys()].sort((a, b) => b.length - a.length).map((name) => spellingPattern(name))

function spellingPattern(name: string): { readonly name: string; readonly pattern: RegExp } {
  const escaped = name.replace(/[\^$.*+?()[\]{}|]/g, '\\$&').replace('/', ' ?/ ?')
  return { name, pattern: new RegExp(`${escaped}(?![\\p{L}\\p{N}_$^])`, 'uy') }
}

/**
 * Cuts a text in plain spelling into numbers, known units, + - * / and parentheses; the first
 * piece that is none of these is named. Nothing else ever reaches the evaluator.
 */
export function readTokens(plain: string, dimension: Dimension): Tokens {
  const tokens: Token[] = []
  let at = 0
  while (at < plain.length) {
    if (plain[at] === ' ') {
      at += 1
      continue
    }
    const token = tokenAt(plain, at)
    if (token === null) return refusal(plain, at, dimension)
    tokens.push(token)
    at += token.text.length
  }
  return { ok: true, tokens }
}

function tokenAt(plain: string, at: number): Token | null {
  const character = plain.charAt(at)
  if ('+-*/'.includes(character)) return { kind: 'operator', text: character }
  if ('()'.includes(character)) return { kind: 'parenthesis', text: character }
  const number = matchAt(NUMBER, plain, at)
  if (number !== null) return { kind: 'number', text: number }
  for (const { name, pattern } of SPELLINGS) {
    const text = matchAt(pattern, plain, at)
    const unit = UNITS.get(name)
    if (text !== null && unit !== undefined) return { kind: 'unit', text, unit }
  }
  return null
}

function refusal(plain: string, at: number, dimension: Dimension): Tokens {
  const word = matchAt(WORD, plain, at)
  if (word === null) {
    const character = String.fromCodePoint(plain.codePointAt(at) ?? 0)
    return {
      ok: false,
      found: message.forbidden(plain, character),
      allowed: message.onlyArithmetic(dimension),
    }
  }
  return { ok: false, found: message.unknownUnit(plain, word), allowed: message.knownUnit(word, dimension) }
}

function matchAt(pattern: RegExp, text: string, at: number): string | null {
  pattern.lastIndex = at
  return pattern.exec(text)?.[0] ?? null
}
