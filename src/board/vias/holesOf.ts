import type { ViaType } from '../vias.ts'
import type { Span } from './buildableSpans.ts'

/** Holes that a via is made of: one, or for stacked and staggered microvias one a dielectric. */
export function holesOf(via: Pick<ViaType, 'kind' | 'firstLayer' | 'lastLayer' | 'arrangement'>): Span[] {
  const { kind, firstLayer, lastLayer, arrangement } = via
  if (kind !== 'microvia') return [{ first: firstLayer, last: lastLayer, laser: false }]
  if (arrangement === null) return [{ first: firstLayer, last: lastLayer, laser: true }]
  return Array.from({ length: lastLayer - firstLayer }, (_, index) => {
    const first = firstLayer + index
    return { first, last: first + 1, laser: true }
  })
}
