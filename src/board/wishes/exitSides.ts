import type { EscapeWishes, ExitSide } from '../escapeWishes.ts'
import { formatPath, type Path } from '../document/path.ts'
import type { Notes } from '../notes.ts'
import type { EscapeText } from '../schema/escapeSchema.ts'
import { selectNets } from './selectNets.ts'
import type { WishScope } from './wishSurroundings.ts'

interface SideOf {
  readonly side: ExitSide
  /** Number of the entry that said so. */
  readonly entry: number
}

/** Side by net. Entries apply in order, as those of `nets` do: a later one replaces what an earlier one said. */
export function exitSides(
  { sides = [] }: EscapeText,
  path: Path,
  scope: WishScope,
  notes: Notes,
): EscapeWishes['exitSides'] {
  const found = new Map<string, SideOf>()
  for (const [entry, { side, ...selection }] of sides.entries()) {
    for (const name of selectNets(selection, [...path, entry], scope, notes)) found.set(name, { side, entry })
  }
  warnOfPartedPairs(found, path, scope, notes)
  return new Map([...found].map(([name, { side }]) => [name, side]))
}

/** Once for each entry that takes one net of a pair to another side than the other, or leaves the other out. */
function warnOfPartedPairs(
  sides: ReadonlyMap<string, SideOf>,
  path: Path,
  scope: WishScope,
  notes: Notes,
): void {
  const parted = new Map<number, string[]>()
  for (const [name, { side, entry }] of sides) {
    const partner = partnerApart(name, sides, scope)
    if (partner === null) continue
    const pair = `${name} (${side}) and ${partner} (${sides.get(partner)?.side ?? 'no side'})`
    parted.set(entry, [...(parted.get(entry) ?? []), pair])
  }
  for (const [entry, pairs] of parted) {
    const place = [...path, entry]
    const count = pairs.length === 1 ? 'a pair' : `${pairs.length} pairs`
    const example = pairs.length === 1 ? (pairs[0] ?? '') : `the first is ${pairs[0] ?? ''}`
    notes.warn(place, {
      found: `${count} parted`,
      allowed: 'one side for both nets of a pair',
      message: `${formatPath(place)} parts ${count} of ${scope.name}, whose nets stay together only through one side: ${example}.`,
    })
  }
}

/** The other net of the pair where it has another side; null for the one of two that is named earlier. */
function partnerApart(name: string, sides: ReadonlyMap<string, SideOf>, { own }: WishScope): string | null {
  const partner = own.get(name)?.partner ?? null
  const mine = sides.get(name)
  if (partner === null || mine === undefined || !own.has(partner)) return null
  const other = sides.get(partner)
  if (other === undefined) return partner
  return other.side === mine.side || other.entry > mine.entry ? null : partner
}
