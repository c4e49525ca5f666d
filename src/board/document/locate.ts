import { isAlias, isMap, isScalar, isSeq, type Document, type LineCounter } from 'yaml'
import type { Path } from './path.ts'

export interface Position {
  /** Both one-based; null where the place has no line. */
  readonly line: number | null
  readonly column: number | null
}

/** Line and column of a place in a description. */
export type Locate = (path: Path) => Position

const NOWHERE: Position = { line: null, column: null }

/**
 * Finds places in a document. What is missing is located at the group that lacks it, a key that
 * should not be there at the key, a value at the value.
 */
export function locator(document: Document, lines: LineCounter): Locate {
  const indices = new WeakMap<object, Map<string, Pair>>()
  const indexOf = (map: { items: Pair[] }): Map<string, Pair> => {
    const known = indices.get(map)
    if (known !== undefined) return known
    const index = new Map<string, Pair>()
    // The first of two equal keys stays: it is the one that counts.
    for (const pair of map.items) {
      const key = isScalar(pair.key) ? String(pair.key.value) : ''
      if (!index.has(key)) index.set(key, pair)
    }
    indices.set(map, index)
    return index
  }
  return (path) => {
    let node: unknown = document.contents
    let offset = startOf(node) ?? 0
    for (const step of path) {
      const next = stepInto(isAlias(node) ? node.resolve(document) : node, step, indexOf)
      if (next === null) break
      offset = startOf(next.value) ?? startOf(next.key) ?? offset
      node = next.value
    }
    const { line, col } = lines.linePos(offset)
    return line === 0 ? NOWHERE : { line, column: col }
  }
}

interface Pair {
  readonly key: unknown
  readonly value: unknown
}

function stepInto(
  node: unknown,
  step: string | number,
  indexOf: (map: { items: Pair[] }) => Map<string, Pair>,
): Pair | null {
  if (isSeq(node) && typeof step === 'number' && step < node.items.length) {
    return { key: null, value: node.items[step] }
  }
  return isMap(node) ? (indexOf(node).get(String(step)) ?? null) : null
}

function startOf(node: unknown): number | null {
  if (typeof node !== 'object' || node === null || !('range' in node)) return null
  return Array.isArray(node.range) && typeof node.range[0] === 'number' ? node.range[0] : null
}
