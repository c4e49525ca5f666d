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
    const slip = slipAt(read.tokens[index - 1], token, dimension)
    if (slip !== null) return { ok: false, found: slip, allowed: message.onlyArithmetic(dimension) }
    if (token.text === '(') depth += 1
    if (token.text === ')') depth -= 1
    if (depth > MAX_NESTING) {
      return { ok: false, found: message.tooDeep(MAX_NESTING), allowed: message.onlyArithmetic(dimension) }
    }
  }
  return read
}

function slipAt(before: Token | undefined, token: Token, dimension: Dimension): string | null {
  if (token.kind === 'unit') return unitSlip(before, token, dimension)
  if (token.kind === 'number' && !Number.isFinite(readNumber(token.text)))
    return message.outOfRange(token.text)
  const startsValue = token.kind === 'number' || token.text === '('
  if (!startsValue || before === undefined) return null
  return before.kind === 'unit' || endsNumber(before)
    ? message.missingOperator(before.text, token.text)
    : null
}

function unitSlip(
  before: Token | undefined,
  token: Token & { kind: 'unit' },
  dimension: Dimension,
): string | null {
  if (before?.kind === 'unit') return message.missingOperator(before.text, token.text)
  if (before === undefined || !endsNumber(before)) return message.withoutNumber(token.text)
  const misplaced = token.unit.dimension === 'copper weight' && dimension !== 'copper thickness'
  return misplaced ? message.otherDimension(token.text, 'copper weight') : null
}

function endsNumber(token: Token): boolean {
  return token.kind === 'number' || token.text === ')'
}
