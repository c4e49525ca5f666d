import type { Dimension } from './dimension.ts'
import * as message from './messages.ts'
import { readNumber, readTokens, type Token, type Tokens } from './tokens.ts'

/** Deepest nesting of parentheses. */
const MAX_NESTING = 20

/**
 * The tokens of arithmetic in plain spelling, refused where a parser would read them otherwise than
 * meant: `5 mm 2` (taken for a product), a unit without a number, copper weight where a plain
 * length is wanted, parentheses nested beyond sense.
 */
export function readExpression(plain: string, dimension: Dimension): Tokens {
  const read = readTokens(plain, dimension)
  if (!read.ok) return read
  let depth = 0
  for (const [index, token] of read.tokens.entries()) {
    const slip = slipAt(plain, read.tokens[index - 1], token, dimension)
    if (slip !== null) return { ok: false, found: slip, allowed: message.onlyArithmetic(dimension) }
    if (token.text === '(') depth += 1
    if (token.text === ')') depth -= 1
    if (depth > MAX_NESTING) {
      return {
        ok: false,
        found: message.tooDeep(plain, MAX_NESTING),
        allowed: message.onlyArithmetic(dimension),
      }
    }
  }
  return read
}

function slipAt(plain: string, before: Token | undefined, token: Token, dimension: Dimension): string | null {
  if (token.kind === 'unit') return unitSlip(plain, before, token, dimension)
  if (token.kind === 'number' && !Number.isFinite(readNumber(token.text)))
    return message.outOfRange(plain, token.text)
  const startsValue = token.kind === 'number' || token.text === '('
  if (!startsValue || before === undefined) return null
  return before.kind === 'unit' || endsNumber(before)
    ? message.missingOperator(plain, before.text, token.text)
    : null
}

function unitSlip(
  plain: string,
  before: Token | undefined,
  token: Token & { kind: 'unit' },
  dimension: Dimension,
): string | null {
  if (before?.kind === 'unit') return message.missingOperator(plain, before.text, token.text)
  if (before === undefined || !endsNumber(before)) return message.withoutNumber(plain, token.text)
  const misplaced = token.unit.dimension === 'copper weight' && dimension !== 'copper thickness'
  return misplaced ? message.misplacedWeight(plain, token.text) : null
}

function endsNumber(token: Token): boolean {
  return token.kind === 'number' || token.text === ')'
}
