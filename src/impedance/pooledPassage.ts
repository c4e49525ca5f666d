import type { BesideNeck } from '../routes/route.ts'
import type { Passage } from './amongVias.ts'

/** Several stretches as one: their lengths together, and everything that stands beside any of them. */
export function pooledPassage(passages: readonly Passage[]): Passage {
  const pooled = new Map<string, BesideNeck>()
  let length = 0
  for (const passage of passages) {
    length += passage.length
    for (const place of passage.beside) {
      const key = JSON.stringify({ ...place, count: 0 })
      pooled.set(key, { ...place, count: place.count + (pooled.get(key)?.count ?? 0) })
    }
  }
  return { length, beside: [...pooled.values()] }
}
