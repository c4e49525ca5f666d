import {
  Composer,
  Lexer,
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
const MAX_DEPTH = 24

/** Words and marks in one description: more than ten times those of 2,500 balls with 1,500 nets. */
const MAX_WORDS = 600_000

/**
 * Text to syntax tree with positions. JSON goes the same way, being a subset of YAML but for tabs.
 * Depth and number of words are watched while reading, so that a hostile text costs no more than a
 * large honest one. Only one document, and only the tags of the core schema. Duplicate keys are left
 * to `plainValue`, which finds them in linear time.
 */
export function parseYaml(text: string, json: boolean): ParsedText {
  const lines = new LineCounter()
  const tokens = readTokens(json ? text.replaceAll('\t', ' ') : text, lines)
  if (!tokens.ok) return { document: null, lines, problems: [tokens.problem] }
  const composer = new Composer({ uniqueKeys: false, strict: true, version: '1.2', schema: 'core' })
  const documents = [...composer.compose(tokens.list, true, text.length)]
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

type Tokens =
  { readonly ok: true; readonly list: CST.Token[] } | { readonly ok: false; readonly problem: TextProblem }

function readTokens(text: string, lines: LineCounter): Tokens {
  const parser = new Parser(lines.addNewLine)
  lines.addNewLine(0)
  const list: CST.Token[] = []
  let words = 0
  for (const word of new Lexer().lex(text)) {
    words += 1
    const excess = excessOf(words, parser.stack.length)
    if (excess !== null) return { ok: false, problem: { offset: parser.offset, ...excess } }
    list.push(...parser.next(word))
  }
  list.push(...parser.end())
  return { ok: true, list }
}

/** The parser's stack holds the document, every group or list that is open, and the value at hand. */
function excessOf(words: number, open: number): Omit<TextProblem, 'offset'> | null {
  if (open > MAX_DEPTH + 2) {
    return {
      found: `lists and groups nested more than ${MAX_DEPTH} deep`,
      allowed: `at most ${MAX_DEPTH} levels`,
    }
  }
  if (words <= MAX_WORDS) return null
  return { found: `more than ${MAX_WORDS} words and marks before its end`, allowed: 'a shorter description' }
}
