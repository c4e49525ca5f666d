import { isAlias, isMap, isScalar, isSeq, type Document, type Node } from 'yaml'
import { formatPath, type Path } from './path.ts'
import type { TextProblem } from './parseYaml.ts'

export interface PlainValue {
  readonly value: unknown
  readonly problems: readonly TextProblem[]
}

/** Values in one description, aliases written out. */
const MAX_VALUES = 300_000
/** Uses of an anchor (*name) in one description. */
const MAX_ALIASES = 200

/**
 * Syntax tree to plain objects, lists, texts and numbers. Finds keys given twice in one group (a
 * parser that keeps the last of them hides a slip), and stops at aliases that write themselves out
 * to more than the file could hold.
 */
export function plainValue(document: Document): PlainValue {
  const walk = new Walk(document)
  const value = walk.read(document.contents, [])
  return { value: walk.stopped ? null : value, problems: walk.problems }
}

class Walk {
  readonly problems: TextProblem[] = []
  stopped = false
  #values = 0
  #aliases = 0
  readonly #open = new Set<Node>()
  readonly #document: Document

  constructor(document: Document) {
    this.#document = document
  }

  read(node: unknown, path: Path): unknown {
    this.#values += 1
    if (this.stopped) return null
    if (this.#values > MAX_VALUES)
      return this.#stop(node, `more than ${MAX_VALUES} values`, 'fewer, aliases (*name) written out')
    if (isScalar(node)) return node.value
    if (isAlias(node)) return this.#readAlias(node, path)
    if (isSeq(node)) return node.items.map((item, index) => this.read(item, [...path, index]))
    if (isMap(node)) return this.#readMap(node, path)
    return null
  }

  #readMap(map: { items: { key: unknown; value: unknown }[] }, path: Path): unknown {
    const entries = new Map<string, unknown>()
    for (const { key, value } of map.items) {
      const name = isScalar(key) ? String(key.value) : null
      if (name === null) {
        this.#report(key, 'a list or group as a key', 'a word or a name as a key')
      } else if (entries.has(name)) {
        this.#report(key, `the key ${formatPath([...path, name])} for the second time`, 'each key once')
      } else {
        entries.set(name, this.read(value, [...path, name]))
      }
    }
    return Object.fromEntries(entries)
  }

  #readAlias(
    alias: Node & { source: string; resolve(document: Document): Node | undefined },
    path: Path,
  ): unknown {
    this.#aliases += 1
    if (this.#aliases > MAX_ALIASES) {
      return this.#stop(
        alias,
        `more than ${MAX_ALIASES} aliases (*name), written out`,
        `at most ${MAX_ALIASES}`,
      )
    }
    const target = alias.resolve(this.#document)
    if (target === undefined) {
      const allowed = 'texts with * in quotes, such as "DQ*", or a name that stands after & before'
      return this.#stop(alias, `the alias *${alias.source}, which names nothing`, allowed)
    }
    if (this.#open.has(target)) {
      return this.#stop(
        alias,
        `the alias *${alias.source} inside what it names`,
        'aliases that come to an end',
      )
    }
    this.#open.add(target)
    const value = this.read(target, path)
    this.#open.delete(target)
    return value
  }

  #stop(node: unknown, found: string, allowed: string): null {
    this.stopped = true
    this.#report(node, found, allowed)
    return null
  }

  #report(node: unknown, found: string, allowed: string): void {
    const range = typeof node === 'object' && node !== null && 'range' in node ? node.range : null
    const offset = Array.isArray(range) && typeof range[0] === 'number' ? range[0] : 0
    this.problems.push({ offset, found, allowed })
  }
}
