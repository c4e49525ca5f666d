import type { BesideNeck } from '../routes/route.ts'
import type { Passage } from './amongVias.ts'

/** Several stretches as one: their lengths together, and everything that stands beside any of them. */
export function pooledPassage(passages: readonly Passage[]): Passage {
  const pooled = new Map<string, BesideNeck>()
  let length = 0
  for (const passage of passages) {
    length += passage.length
    for (const place of passage.beside) {
      const key = JSON.stringify({ ...place, count: 0, covers: 0 })
      const { count = 0, covers = 0 } = pooled.get(key) ?? {}
      pooled.set(key, { ...place, count: place.count + count, covers: place.covers + covers })
    }
  }
  return { length, beside: [...pooled.values()] }
}
