import type { NetClass } from '../../board/nets.ts'
import type { Violation } from '../../impedance/closedForm/limits.ts'
import type { LineImpedance } from '../../impedance/estimate.ts'
import type { LineEntry } from '../../impedance/lineTable.ts'
import { groupBy } from '../../numerics/groupBy.ts'
import { assumedOfLine, boardIndex } from '../boardIndex.ts'
import type { FindingContext } from '../context.ts'
import type { Finding } from '../finding.ts'
import { count, ohms } from '../measure.ts'
import { verdictOfModes } from '../trials.ts'

/**
 * Lines whose impedance comes from a formula outside the limits that its author states. A note, as the error
 * band is widened for it; a warning where that band reaches across the edge of the class's tolerance, so that
 * the formula cannot tell whether the line passes. One finding for each formula and limit, on the worst line.
 */
export function formulaOutsideLimits(context: FindingContext): Finding[] {
  const { classes } = boardIndex(context)
  const outside = context.lines.entries.flatMap((entry) => {
    const netClass = classes.get(entry.netClass)
    const line = entry.impedance
    if (netClass === undefined || line === null || !entry.used) return []
    return line.chosen.violations.map((violation) => ({ entry, netClass, line, violation }))
  })
  const groups = groupBy(outside, ({ line, violation }) => `${line.chosen.method.id}|${violation.quantity}`)
  return [...groups.values()].flatMap((group) => {
    const undecided = group.filter(({ line, netClass }) => isUndecided(line, netClass))
    const [worst] = [...(undecided.length > 0 ? undecided : group)].sort(
      (a, b) => excess(b.violation) - excess(a.violation),
    )
    return worst === undefined ? [] : [outsideLimits(worst, group, undecided.length > 0)]
  })
}

interface OutsideLine {
  readonly entry: LineEntry
  readonly netClass: NetClass
  readonly line: LineImpedance
  readonly violation: Violation
}

function outsideLimits(worst: OutsideLine, group: readonly OutsideLine[], undecided: boolean): Finding {
  const { entry, netClass, line, violation } = worst
  const { method, claimedError } = line.chosen
  const tooSmall = violation.value < violation.min
  return {
    code: 'formula-outside-limits',
    severity: undecided ? 'warning' : 'note',
    subject: {
      kind: 'class',
      name: entry.netClass,
      layer: entry.layer,
      package: entry.package,
      alike: [
        ...new Set(group.filter((each) => each !== worst).map(({ entry: other }) => nameOf(other))),
      ].filter((name) => name !== nameOf(entry)),
    },
    measured: count(violation.quantity, violation.value),
    limit: tooSmall ? count('at least', violation.min) : count('at most', violation.max),
    limitSource: `${method.title}: ${method.source}`,
    // Another section is another line: no change of the tool's own keeps this one and meets the limit.
    remedies: [],
    details: [
      ohms(
        `impedance of the ${entry.stretch === 'neck' ? 'neck' : 'main route'}`,
        line.impedance,
        claimedError,
      ),
      ohms('target', netClass.target),
      ...line.others
        .filter((other) => other.violations.length === 0)
        .map((other) => ohms(`by ${other.method.title}`, verdictOfModes(other.modes), other.claimedError)),
    ],
    assumed: assumedOfLine(line.section),
  }
}

function isUndecided({ impedance, chosen }: LineImpedance, { target, tolerance }: NetClass): boolean {
  const [low, high] = [impedance * (1 - chosen.claimedError), impedance * (1 + chosen.claimedError)]
  return [target * (1 - tolerance), target * (1 + tolerance)].some((edge) => edge > low && edge < high)
}

/** How far outside, as a share of the limit. */
function excess({ value, min, max }: Violation): number {
  return value < min
    ? (min - value) / Math.max(Math.abs(min), 1e-12)
    : (value - max) / Math.max(Math.abs(max), 1e-12)
}

function nameOf(entry: LineEntry): string {
  const stretch = entry.stretch === 'neck' ? 'neck' : 'main route'
  return `${stretch} of ${entry.netClass} on layer ${entry.layer}${entry.package === null ? '' : ` at ${entry.package}`}`
}
