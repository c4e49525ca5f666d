import type { YAMLError, YAMLWarning } from 'yaml'

interface Wording {
  readonly found: string
  readonly allowed: string
}

const WORDINGS: Readonly<Partial<Record<YAMLError['code'], Wording>>> = {
  TAB_AS_INDENT: { found: 'a tab at the start of a line', allowed: 'spaces for indentation' },
  BAD_INDENT: {
    found: 'a line that is not indented as its surroundings need',
    allowed: 'keys of one group in one column, and every [ or { closed',
  },
  BLOCK_AS_IMPLICIT_KEY: {
    found: 'a second "key: value" on the line of a first one',
    allowed: 'one key a line; a text that holds ": " stands in quotes',
  },
  MISSING_CHAR: {
    found: 'something left open or run together',
    allowed: 'every quote, [ and { closed, a space after each colon',
  },
  UNEXPECTED_TOKEN: { found: 'a character that fits nowhere', allowed: 'keys, values and lists of YAML' },
  BAD_SCALAR_START: {
    found: 'a text that begins with a reserved character',
    allowed: 'such a text in quotes',
  },
  BAD_ALIAS: { found: 'a * that names no anchor', allowed: 'texts with * in quotes, such as "DQ*"' },
  MULTILINE_IMPLICIT_KEY: {
    found: 'a key that runs over several lines',
    allowed: 'a key and its colon on one line',
  },
  TAG_RESOLVE_FAILED: {
    found: 'a tag (a word after !) that is not known',
    allowed: 'no tags; texts with ! in quotes',
  },
  RESOURCE_EXHAUSTION: { found: 'lists or groups nested too deep to read', allowed: 'a flat description' },
  MULTIPLE_DOCS: { found: 'a second document after ---', allowed: 'one document a file' },
}

/** The parser's complaint in plain words, with its own sentence kept for those who know YAML. */
export function syntaxProblem(fault: YAMLError | YAMLWarning): Wording {
  const said = fault.message.split('\n')[0] ?? fault.message
  const words = WORDINGS[fault.code]
  if (words === undefined)
    return { found: `text that is not valid YAML (${said})`, allowed: 'valid YAML or JSON' }
  return { found: `${words.found} (${said})`, allowed: words.allowed }
}
