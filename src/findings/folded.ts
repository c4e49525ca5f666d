import { groupBy } from '../numerics/groupBy.ts'
import type { Finding, Remedy } from './finding.ts'

/** A finding with how much it weighs among its like, and what it is called beside a heavier one. */
export interface Weighed {
  readonly finding: Omit<Finding, 'remedies'>
  /** Asked of the heaviest alone, as trials take their time. */
  readonly remedies: () => Remedy[]
  readonly weight: number
  readonly name: string
}

/**
 * One finding for each key: the heaviest, which names the others and what they name. Findings keep the order
 * in which their keys first come.
 */
export function folded(
  weighed: readonly Weighed[],
  keyOf: (finding: Weighed['finding']) => string,
): Finding[] {
  return [...groupBy(weighed, ({ finding }) => keyOf(finding)).values()].flatMap((group) => {
    const heaviest = group.reduce((best, each) => (each.weight > best.weight ? each : best))
    const others = group.filter((each) => each !== heaviest)
    const { finding, name, remedies } = heaviest
    const names = new Set([
      ...finding.subject.alike,
      ...others.flatMap((other) => [other.name, ...alikeOf(other)]),
    ])
    names.delete(name)
    return [{ ...finding, subject: { ...finding.subject, alike: [...names] }, remedies: remedies() }]
  })
}

/** A layer by itself means nothing beside another class. */
function alikeOf({ finding, name }: Weighed): string[] {
  return finding.subject.alike.map((each) => (each.startsWith('layer ') ? `${name} on ${each}` : each))
}

export function byPackageAndSeverity({ code, severity, subject }: Weighed['finding']): string {
  return `${code}|${subject.package ?? ''}|${severity}`
}

/** Notes of one package make one; what asks for a change stays apart, as its remedies are its own. */
export function notesTogether(finding: Weighed['finding']): string {
  const { severity, subject } = finding
  return severity === 'note'
    ? byPackageAndSeverity(finding)
    : [byPackageAndSeverity(finding), subject.kind, subject.name, subject.layer].join('|')
}
