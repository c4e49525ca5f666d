import { formatPath, type Path } from '../document/path.ts'
import { fitsPattern } from '../namePattern.ts'
import { suggestion } from '../nearestWord.ts'
import type { Net } from '../nets.ts'
import type { Notes } from '../notes.ts'
import { listed, NONE_OF_THEM } from '../schema/explain.ts'
import type { WishScope } from './wishSurroundings.ts'

const KEYS = ['match', 'name', 'class', 'group'] as const
type SelectionKey = (typeof KEYS)[number]

/** Nets by exactly one of four keys. */
export type Selection = Readonly<Partial<Record<SelectionKey, string | undefined>>>

/**
 * Names of the package's signal nets that an entry means; a text alone is a pattern. What does not exist is an
 * error; a pattern, class or group that has no net of this package is warned of.
 */
export function selectNets(entry: string | Selection, path: Path, scope: WishScope, notes: Notes): string[] {
  if (typeof entry === 'string') return fitting('match', entry, path, scope, notes)
  const stated = KEYS.flatMap((key) => {
    const word = entry[key]
    return word === undefined ? [] : [{ key, word }]
  })
  const [only, ...more] = stated
  if (only === undefined || more.length > 0) {
    const found = stated.length === 0 ? NONE_OF_THEM : stated.map(({ key }) => key).join(' and ')
    const place = formatPath(path)
    notes.error(path, {
      found,
      allowed: `one of ${listed(KEYS)}`,
      message: `An entry says which nets it means by one of ${listed(KEYS)}; ${place} has ${found}.`,
    })
    return []
  }
  const place = [...path, only.key]
  return only.key === 'name'
    ? named(only.word, place, scope, notes)
    : fitting(only.key, only.word, place, scope, notes)
}

function named(name: string, path: Path, scope: WishScope, notes: Notes): string[] {
  if (scope.pack === null) return []
  if (scope.own.has(name)) return [name]
  const supply = scope.pack.balls.some(({ net }) => net === name)
  notes.error(path, {
    found: supply ? `net ${name}, which is no signal` : `net ${name}`,
    allowed: `a signal net of ${scope.name}`,
    message: supply
      ? `Net ${name} is no signal; only signals are taken out of ${scope.name} one by one.`
      : `No ball of ${scope.name} has the net ${name}${suggestion(name, scope.own.keys()) || '.'}`,
  })
  return []
}

function fitting(
  key: Exclude<SelectionKey, 'name'>,
  word: string,
  path: Path,
  scope: WishScope,
  notes: Notes,
): string[] {
  if (key !== 'match' && !isKnown(key, word, path, scope, notes)) return []
  const found = [...scope.own.values()].filter((net) => fits(net, key, word)).map(({ name }) => name)
  if (found.length === 0 && scope.pack !== null) warnOfNone(key, word, path, scope.name, notes)
  return found
}

function fits(net: Net, key: Exclude<SelectionKey, 'name'>, word: string): boolean {
  if (key === 'match') return fitsPattern(net.name, word)
  return key === 'class' ? net.class === word : net.matchGroup === word
}

/** False with an error noted where the description has no such class or match group. */
export function isKnown(
  key: 'class' | 'group',
  word: string,
  path: Path,
  { classNames, groupNames }: WishScope,
  notes: Notes,
): boolean {
  const names = key === 'class' ? classNames : groupNames
  if (names.includes(word)) return true
  const known = names.length === 0 ? 'none' : names.join(', ')
  const words = key === 'class' ? 'class' : 'match group'
  notes.error(path, {
    found: `"${word}"`,
    allowed: known,
    message: `Unknown ${words} "${word}"; the description has ${known}${suggestion(word, names) || '.'}`,
  })
  return false
}

/** Says that a reference is right and yet means nothing here. */
export function warnOfNone(
  key: Exclude<SelectionKey, 'name'>,
  word: string,
  path: Path,
  name: string,
  notes: Notes,
): void {
  const [allowed, message] =
    key === 'match'
      ? ['a pattern that fits', `The pattern "${word}" fits no signal net of ${name}.`]
      : [
          `a ${key} with`,
          `No signal net of ${name} is in the ${key === 'class' ? 'class' : 'match group'} "${word}".`,
        ]
  notes.warn(path, { found: `"${word}"`, allowed: `${allowed} at least one signal net of ${name}`, message })
}
