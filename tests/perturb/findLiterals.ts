import ts from 'typescript'

/** A numeric literal of a source text. */
export interface Literal {
  readonly start: number
  readonly end: number
  readonly text: string
  readonly line: number
  /** The source line it stands in, trimmed. */
  readonly context: string
  /** Why changing it by 1 % would say nothing; null for a coefficient. */
  readonly skipped: SkipReason | null
}

export type SkipReason = keyof typeof SKIP_REASONS

/** What is not changed, and why. */
export const SKIP_REASONS = {
  zero: '1 % of zero is zero',
  index: 'an array index: 1 % more is no index',
  type: 'part of a type, not of the program',
  message: 'only in the text of an error',
  key: 'a property name',
} as const

/** Every numeric literal of a TypeScript text, in order. */
export function findLiterals(text: string): Literal[] {
  const source = ts.createSourceFile('source.ts', text, ts.ScriptTarget.Latest, true)
  const lines = text.split('\n')
  const found: Literal[] = []
  const visit = (node: ts.Node): void => {
    if (ts.isNumericLiteral(node)) {
      const start = node.getStart(source)
      const { line } = source.getLineAndCharacterOfPosition(start)
      found.push({
        start,
        end: node.getEnd(),
        text: node.getText(source),
        line: line + 1,
        context: (lines[line] ?? '').trim(),
        skipped: skipReason(node),
      })
    }
    ts.forEachChild(node, visit)
  }
  visit(source)
  return found
}

function skipReason(node: ts.NumericLiteral): SkipReason | null {
  if (Number(node.text) === 0) return 'zero'
  const { parent } = node
  if (ts.isElementAccessExpression(parent) && parent.argumentExpression === node) return 'index'
  if (ts.isLiteralTypeNode(parent) || ts.isLiteralTypeNode(parent.parent)) return 'type'
  if (ts.isPropertyAssignment(parent) && parent.name === node) return 'key'
  for (let at: ts.Node = node; !ts.isSourceFile(at); at = at.parent) {
    if (ts.isThrowStatement(at)) return 'message'
    if (ts.isBlock(at)) break
  }
  return null
}

/**
 * The text with every literal that is not skipped behind a call, `name(index, literal)`, so that one compiled program
 * can be run with any single one of them changed.
 */
export function instrument(text: string, literals: readonly Literal[], name: string): string {
  let result = text
  for (const [index, literal] of [...literals.entries()].reverse()) {
    if (literal.skipped !== null) continue
    result = `${result.slice(0, literal.start)}${name}(${index}, ${literal.text})${result.slice(literal.end)}`
  }
  return result
}
