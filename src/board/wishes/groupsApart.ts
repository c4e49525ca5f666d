import type { GroupsApart } from '../escapeWishes.ts'
import { formatPath, type Path } from '../document/path.ts'
import type { Notes } from '../notes.ts'
import type { EscapeText } from '../schema/escapeSchema.ts'
import { isKnown, warnOfNone } from './selectNets.ts'
import type { WishScope } from './wishSurroundings.ts'

/** Gaps between match groups, each two of them once. Problems are noted. */
export function groupsApart(
  { apart = [] }: EscapeText,
  path: Path,
  scope: WishScope,
  notes: Notes,
): GroupsApart[] {
  const seen = new Map<string, number>()
  return apart.map(({ groups, gap }, index): GroupsApart => {
    const place = [...path, index, 'groups']
    for (const [step, group] of [...new Set(groups)].entries())
      checkGroup(group, [...place, step], scope, notes)
    const [one, other] = groups
    const key = JSON.stringify([...groups].sort())
    const earlier = seen.get(key)
    if (one === other) {
      notes.error([...place, 1], {
        found: `"${other}" for the second time`,
        allowed: 'another match group',
        message: `${formatPath(place)} names "${other}" twice; a gap is kept between two groups.`,
      })
    } else if (earlier === undefined) {
      seen.set(key, index)
    } else {
      notes.error(place, {
        found: `"${one}" and "${other}" for the second time`,
        allowed: 'one gap for each two match groups',
        message: `The gap between "${one}" and "${other}" is given twice, here and in ${formatPath([...path, earlier])}.`,
      })
    }
    return { groups, gap }
  })
}

function checkGroup(group: string, path: Path, scope: WishScope, notes: Notes): void {
  if (!isKnown('group', group, path, scope, notes)) return
  if (scope.pack !== null && !scope.ownGroups.has(group)) warnOfNone('group', group, path, scope.name, notes)
}
