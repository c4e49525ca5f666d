import type { Path } from '../document/path.ts'

/**
 * A copy of a value that lacks what stands at a path. An item of a list leaves with the whole list,
 * since the places of the others would change; undefined where nothing is left.
 */
export function without(value: unknown, path: Path): unknown {
  const [step, ...rest] = path
  if (step === undefined || typeof value !== 'object' || value === null) return undefined
  if (Array.isArray(value)) {
    const items = value as unknown[]
    const inner = rest.length === 0 ? undefined : without(items[Number(step)], rest)
    return inner === undefined ? undefined : items.map((item, index) => (index === step ? inner : item))
  }
  const entries = Object.entries(value).flatMap(([key, part]): [string, unknown][] => {
    if (key !== String(step)) return [[key, part]]
    const inner = rest.length === 0 ? undefined : without(part, rest)
    return inner === undefined ? [] : [[key, inner]]
  })
  return Object.fromEntries(entries)
}
