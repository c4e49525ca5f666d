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

/**
 * Side by net. Entries apply in order, as those of `nets` do: a later one replaces what an earlier one said. A net that
 * no entry means takes the side of its partner.
 */
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
  for (const [name, { side, entry }] of [...found]) {
    const partner = scope.own.get(name)?.partner ?? null
    if (partner !== null && scope.own.has(partner) && !found.has(partner)) found.set(partner, { side, entry })
  }
  warnOfPartedPairs(found, path, scope, notes)
  return new Map([...found].map(([name, { side }]) => [name, side]))
}

/** Once for each entry that takes one net of a pair to another side than an earlier entry takes the other. */
function warnOfPartedPairs(
  sides: ReadonlyMap<string, SideOf>,
  path: Path,
  scope: WishScope,
  notes: Notes,
): void {
  for (const [entry, [first = '', ...more]] of partedPairs(sides, scope)) {
    const place = [...path, entry]
    const count = more.length === 0 ? 'a pair' : `${more.length + 1} pairs`
    const example = more.length === 0 ? first : `the first is ${first}`
    notes.warn(place, {
      found: `${count} parted`,
      allowed: 'one side for both nets of a pair',
      message: `${formatPath(place)} parts ${count} of ${scope.name}, whose nets stay together only through one side: ${example}.`,
    })
  }
}

/** Pairs with two sides, in words, by the entry that speaks last of them. */
function partedPairs(sides: ReadonlyMap<string, SideOf>, { own }: WishScope): Map<number, string[]> {
  const parted = new Map<number, string[]>()
  for (const [name, { side, entry }] of sides) {
    const partner = own.get(name)?.partner ?? ''
    const other = sides.get(partner)
    if (other === undefined || other.side === side || other.entry > entry) continue
    const pair = `${name} (${side}) and ${partner} (${other.side})`
    parted.set(entry, [...(parted.get(entry) ?? []), pair])
  }
  return parted
}
