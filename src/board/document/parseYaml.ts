import {
  Composer,
  LineCounter,
  Parser,
  type CST,
  type Document,
  type YAMLError,
  type YAMLWarning,
} from 'yaml'
import { syntaxProblem } from './syntaxProblem.ts'

/** Something wrong at a character of the text. */
export interface TextProblem {
  /** Zero-based. */
  readonly offset: number
  readonly found: string
  readonly allowed: string
}

export interface ParsedText {
  /** Null where the text is too broken, or too deep, to go on with. */
  readonly document: Document.Parsed | null
  readonly lines: LineCounter
  readonly problems: readonly TextProblem[]
}

/** Deeper nesting than any description needs; the tree is walked by recursive functions later. */
export const MAX_DEPTH = 24

/**
 * Text to syntax tree with positions. JSON goes the same way, being a subset of YAML but for tabs.
 * The depth is checked on the flat token tree, before anything recurses. Only one document, and
 * only the tags of the core schema. Duplicate keys are left to `plainValue`, which finds them in
 * linear time.
 */
export function parseYaml(text: string, json: boolean): ParsedText {
  const lines = new LineCounter()
  const parser = new Parser(lines.addNewLine)
  const tokens = [...parser.parse(json ? text.replaceAll('\t', ' ') : text)]
  const deep = tokens.map(tooDeep).find((offset) => offset !== null) ?? null
  if (deep !== null) {
    const problem = {
      offset: deep,
      found: `lists and groups nested more than ${MAX_DEPTH} deep`,
      allowed: `at most ${MAX_DEPTH} levels`,
    }
    return { document: null, lines, problems: [problem] }
  }
  const composer = new Composer({ uniqueKeys: false, strict: true, version: '1.2', schema: 'core' })
  const documents = [...composer.compose(tokens, true, text.length)]
  const [document = null, second] = documents
  const faults = documents.flatMap((part): (YAMLError | YAMLWarning)[] => [...part.errors, ...part.warnings])
  const problems = textProblems(faults)
  if (second !== undefined) {
    problems.push({
      offset: second.range[0],
      found: 'a second document after ---',
      allowed: 'one document a file',
    })
  }
  return { document: faults.length > 0 ? null : document, lines, problems }
}

/**
 * What is wrong with the text. A slip in the syntax throws the parser off its track, so of those only
 * the first is worth reporting; unknown tags stand on their own.
 */
function textProblems(faults: readonly (YAMLError | YAMLWarning)[]): TextProblem[] {
  const tags = faults.filter(({ code }) => code === 'TAG_RESOLVE_FAILED')
  const first = faults
    .filter((fault) => !tags.includes(fault))
    .reduce<YAMLError | YAMLWarning | null>(
      (best, next) => (best !== null && best.pos[0] <= next.pos[0] ? best : next),
      null,
    )
  return [...(first === null ? [] : [first]), ...tags.slice(0, MAX_TAGS)].map((fault) => ({
    offset: fault.pos[0],
    ...syntaxProblem(fault),
  }))
}

/** Unknown tags that are listed. */
const MAX_TAGS = 5

/** Where a token tree goes deeper than allowed, walked without recursion; null where it does not. */
function tooDeep(root: CST.Token): number | null {
  const waiting: CST.Token[] = [root]
  const depths = [0]
  for (let token = waiting.pop(); token !== undefined; token = waiting.pop()) {
    const depth = depths.pop() ?? 0
    if (depth > MAX_DEPTH) return token.offset
    const before = waiting.length
    pushChildren(token, waiting)
    for (let index = before; index < waiting.length; index += 1) depths.push(depth + 1)
  }
  return null
}

function pushChildren(token: CST.Token, waiting: CST.Token[]): void {
  if (token.type === 'document') {
    if (token.value !== undefined) waiting.push(token.value)
  } else if ('items' in token) {
    for (const { key, value } of token.items) {
      if (key !== null && key !== undefined) waiting.push(key)
      if (value !== undefined) waiting.push(value)
    }
  }
}
