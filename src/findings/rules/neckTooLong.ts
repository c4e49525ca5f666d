import type { FindingContext } from '../context.ts'
import { folded, notesTogether } from '../folded.ts'
import { drawnDown } from '../drawn.ts'
import type { Finding, Measure, Remedy } from '../finding.ts'
import { fraction, layer, metres, seconds } from '../measure.ts'
import {
  effectSeverity,
  neckEffect,
  neckGroups,
  otherNets,
  peakOfEnd,
  triedPeak,
  worstBy,
  type NeckEnd,
} from '../neckEnds.ts'
import { atLength, onOtherLayer, shortestNeck, traceDelay } from '../neckTrials.ts'

/**
 * A neck longer than its interface's published guide allows, or, where it keeps within that or there is none,
 * longer than the stated share of its edge.
 *
 * Beyond the guide: an error if its reflection is large too, else a warning. Electrically long alone is a note
 * while the reflection is small or granted, and has the severity of the reflection otherwise. Length and
 * reflection are judged apart because the rule of length alone misleads both ways.
 */
export function neckTooLong(context: FindingContext): Finding[] {
  const found = neckGroups(context).flatMap((group) => {
    const beyond = group.filter(({ end }) => end.allowance?.exceeded === true)
    const farthest = worstBy(beyond, (end) => end.neckLength)
    const long = group.filter(({ end }) => end.electricalLength.long && end.allowance?.exceeded !== true)
    const longest = worstBy(long, (end) => end.electricalLength.share)
    return [
      ...(farthest === undefined ? [] : beyondAllowance(context, farthest, beyond)),
      ...(longest === undefined ? [] : [electricallyLong(context, longest, long)]),
    ]
  })
  const weighed = found.map(({ remedies, ...finding }) => {
    return {
      finding,
      remedies: () => [...remedies],
      weight: finding.measured.value / finding.limit.value,
      name: finding.subject.name,
    }
  })
  return folded(weighed, (finding) => `${notesTogether(finding)}|${finding.measured.unit}`)
}

function beyondAllowance(context: FindingContext, worst: NeckEnd, all: readonly NeckEnd[]): Finding[] {
  const { end } = worst
  if (end.allowance === null) return []
  const { length, source } = end.allowance
  const reached = length >= shortestNeck(context, worst)
  return [
    {
      ...subjectOf(worst, all),
      severity: all.some((each) => neckEffect(each.end) === 'large') ? 'error' : 'warning',
      measured: metres('length of the neck', end.neckLength),
      limit: metres('at most', length),
      limitSource: source,
      remedies: reached
        ? [
            {
              action: 'shorten the neck to',
              value: metres('length of the neck', length),
              result: metres('length of the neck', length),
            },
          ]
        : [],
      details: detailsOf(worst),
    },
  ]
}

function electricallyLong(context: FindingContext, worst: NeckEnd, all: readonly NeckEnd[]): Finding {
  const { share, limit, limitSource } = worst.end.electricalLength
  const loudest = worstBy(all, peakOfEnd) ?? worst
  return {
    ...subjectOf(worst, all),
    severity: effectSeverity(loudest),
    measured: fraction('share of the edge that the neck takes up', share),
    limit: fraction('at most', limit),
    limitSource,
    remedies: [...shorter(context, worst), ...fasterLayer(context, worst)],
    details: detailsOf(worst),
  }
}

function subjectOf(worst: NeckEnd, all: readonly NeckEnd[]): Pick<Finding, 'code' | 'subject' | 'assumed'> {
  const { signal, end, netClass } = worst
  return {
    code: 'neck-too-long',
    subject: {
      kind: 'net',
      name: signal.net,
      layer: end.layer,
      package: end.package,
      alike: otherNets(all, worst),
    },
    assumed: netClass.assumed.filter(({ path }) => path.endsWith('.edge')),
  }
}

function detailsOf({ end }: NeckEnd): Measure[] {
  return [
    metres('length of the neck', end.neckLength),
    seconds('delay of the neck', end.neckDelay),
    seconds('rise time, 10–90 %', end.riseTime),
    metres('length of the edge', end.edgeLength),
    fraction('largest reflection', peakOfEnd(end)),
    fraction('reflection limit', end.reflection.limit),
  ]
}

/** To just the limit, where the ball's ring lets it. */
function shorter(context: FindingContext, worst: NeckEnd): Remedy[] {
  const { end } = worst
  const { share, limit } = end.electricalLength
  const none = atLength(worst, Math.max(0, end.neckLength * (limit / share)))
  if (none === null) return []
  const shareAt = (length: number): number => traceDelay(worst, atLength(worst, length)) / end.riseTime
  // The share is a straight line in the length: two points give it.
  const nearer = end.neckLength * (limit / share)
  const slope = (share - shareAt(nearer)) / (end.neckLength - nearer)
  const length = drawnDown(context.board, end.neckLength - (share - limit) / slope)
  if (!(length >= shortestNeck(context, worst)) || atLength(worst, length) === null) return []
  return [
    {
      action: 'shorten the neck to',
      value: metres('length of the neck', length),
      result: fraction('share of the edge', shareAt(length)),
    },
  ]
}

/** The fastest other layer of the table, if the neck is short enough there and reflects no more than allowed. */
function fasterLayer(context: FindingContext, worst: NeckEnd): Remedy[] {
  const { end, netClass } = worst
  const layers = new Set(
    context.lines.entries.map((entry) => entry.layer).filter((number) => number !== end.layer),
  )
  const tried = [...layers].flatMap((number) => {
    const neck = onOtherLayer(context, worst, number)
    if (neck === null || triedPeak(context, netClass, neck) > end.reflection.limit) return []
    return [{ number, share: traceDelay(worst, neck) / end.riseTime }]
  })
  const [best] = tried.sort((a, b) => a.share - b.share)
  if (best === undefined || best.share > end.electricalLength.limit) return []
  return [
    {
      action: 'leave on',
      value: layer('layer', best.number),
      result: fraction('share of the edge', best.share),
    },
  ]
}
