import type { Assumption } from '../../units/assumption.ts'
import { table } from './table.ts'

/** Values that were filled in, each once; empty where all was stated. */
export function assumptionsText(assumed: readonly Assumption[]): string {
  if (assumed.length === 0) return ''
  const seen = new Map(assumed.map((assumption) => [assumption.path, assumption]))
  return `\nAssumed, because the description does not say:\n${table(
    [
      { title: 'what', kind: 'word' },
      { title: 'value', kind: 'word' },
      { title: 'place', kind: 'word' },
      { title: 'source', kind: 'word' },
    ],
    [...seen.values()].map(({ quantity, value, path, source }) => [quantity, value, path, source]),
  )}`
}
