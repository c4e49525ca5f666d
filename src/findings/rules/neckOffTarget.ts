import type { NetClass } from '../../board/nets.ts'
import type { LineImpedance } from '../../impedance/estimate.ts'
import type { LineEntry, RunningValue } from '../../impedance/lineTable.ts'
import { assumedOfLine, boardIndex } from '../boardIndex.ts'
import type { FindingContext } from '../context.ts'
import { folded, notesTogether, type Weighed } from '../folded.ts'
import type { Finding, Measure, Remedy } from '../finding.ts'
import { brokenBound, isOffTarget, lineRemedies, targetSource } from '../lineRemedies.ts'
import { count, fraction, metres, ohms, words } from '../measure.ts'
import { effectSeverity, necksOn, peakOfEnd, worstBy, type NeckEnd } from '../neckEnds.ts'

/**
 * A neck whose impedance lies outside its class's tolerance. Under the package that is common and often
 * harmless, so the severity is that of what the edge sees of it: a note while the reflection is small or the
 * published allowance grants it, a warning above the limit, an error above twice the limit.
 *
 * A neck without an impedance is an error: the stackup cannot carry it. The notes of one package are one.
 */
export function neckOffTarget(context: FindingContext): Finding[] {
  const { classes } = boardIndex(context)
  const found = context.lines.entries.flatMap((entry) => {
    const netClass = classes.get(entry.netClass)
    if (netClass === undefined || entry.stretch !== 'neck' || !entry.used) return []
    const name = `class ${entry.netClass} on layer ${entry.layer}`
    if (entry.impedance === null || entry.runs === null) {
      return [{ finding: refusedNeck(netClass, entry), remedies: () => [], weight: Infinity, name }]
    }
    const { impedance } = entry.runs
    if (!isOffTarget(netClass, impedance)) return []
    const miss = Math.abs(impedance / netClass.target - 1)
    const finding = offTarget(context, netClass, entry, entry.impedance, entry.runs)
    const remedies = (): Remedy[] => lineRemedies(context, netClass, entry)
    return [{ finding, remedies, weight: miss, name }]
  })
  return folded(found, (finding) => `${notesTogether(finding)}|${finding.measured.unit}`)
}

function offTarget(
  context: FindingContext,
  netClass: NetClass,
  entry: LineEntry,
  line: LineImpedance,
  runs: RunningValue,
): Weighed['finding'] {
  const necks = necksOn(context, netClass.name, entry.package, entry.layer, entry.gap)
  const worst = worstBy(necks, peakOfEnd)
  const bound = brokenBound(netClass, runs.impedance)
  return {
    code: 'neck-off-target',
    severity: worst === undefined ? 'note' : effectSeverity(worst),
    subject: subjectOf(entry),
    measured: ohms('neck impedance', runs.impedance, runs.band),
    limit: ohms(bound.what, bound.value),
    limitSource: targetSource(netClass),
    details: [
      ohms('target', netClass.target),
      ...(entry.loaded === null ? [] : [ohms('over solid planes', line.impedance, line.chosen.claimedError)]),
      ...(entry.width === null ? [] : [metres('trace width', entry.width)]),
      ...(worst === undefined ? [] : effectDetails(necks, worst)),
    ],
    assumed: assumedOfLine(line.section),
  }
}

function effectDetails(necks: readonly NeckEnd[], worst: NeckEnd): Measure[] {
  const { end } = worst
  const granted = end.allowance
  return [
    count('nets that use it', new Set(necks.map(({ signal }) => signal.net)).size),
    fraction('largest reflection', peakOfEnd(end)),
    fraction('reflection limit', end.reflection.limit),
    metres('longest neck', Math.max(...necks.map((each) => each.end.neckLength))),
    fraction(
      'share of the edge that it takes up',
      Math.max(...necks.map((each) => each.end.electricalLength.share)),
    ),
    ...(granted === null ? [] : [metres('length that the guide of the interface allows', granted.length)]),
  ]
}

function refusedNeck(netClass: NetClass, entry: LineEntry): Weighed['finding'] {
  return {
    code: 'neck-off-target',
    severity: 'error',
    subject: subjectOf(entry),
    measured: words(entry.refusal ?? 'no impedance'),
    limit: ohms('target', netClass.target),
    limitSource: targetSource(netClass),
    details: entry.width === null ? [] : [metres('trace width', entry.width)],
    assumed: netClass.assumed,
  }
}

function subjectOf(entry: LineEntry): Finding['subject'] {
  return { kind: 'class', name: entry.netClass, layer: entry.layer, package: entry.package, alike: [] }
}
