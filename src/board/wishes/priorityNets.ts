import type { EscapeWishes } from '../escapeWishes.ts'
import { formatPath, type Path } from '../document/path.ts'
import type { Notes } from '../notes.ts'
import type { EscapeText } from '../schema/escapeSchema.ts'
import { selectNets } from './selectNets.ts'
import type { WishScope } from './wishSurroundings.ts'

/** Nets by entry, most important first. A net counts where it is named first. */
export function priorityNets(
  { priority = [] }: EscapeText,
  path: Path,
  scope: WishScope,
  notes: Notes,
): EscapeWishes['priority'] {
  const ranked = new Set<string>()
  return priority.flatMap((entry, index) => {
    const place = [...path, index]
    const found = selectNets(entry, place, scope, notes)
    const fresh = found.filter((name) => !ranked.has(name))
    for (const name of fresh) ranked.add(name)
    if (found.length > 0 && fresh.length === 0) {
      notes.warn(place, {
        found: 'only nets that earlier entries name',
        allowed: 'the more important nets before a pattern that fits them too',
        message: `${formatPath(place)} has no effect: entries before it name all its nets, and the first counts.`,
      })
    }
    return fresh.length === 0 ? [] : [fresh]
  })
}

/** The first layers for nets of priority; shallow where nothing is said. */
export function priorityLayersOf(
  { priority = [], priority_layers: stated }: EscapeText,
  ranked: EscapeWishes['priority'],
  path: Path,
  scope: WishScope,
  notes: Notes,
): EscapeWishes['priorityLayers'] {
  if (stated === undefined) {
    if (ranked.length > 0) {
      const quantity = `layers that nets of priority of ${scope.name} are tried on first`
      notes.assume(path, quantity, 'shallow', 'common practice, no source: a short barrel')
    }
    return 'shallow'
  }
  if (priority.length === 0) {
    notes.warn(path, {
      found: `${stated}, but no nets of priority`,
      allowed: 'priority_layers where priority names nets',
      message: `${formatPath(path)} is ${stated}, but ${scope.name} has no nets of priority that it could speak of.`,
    })
  }
  return stated
}
