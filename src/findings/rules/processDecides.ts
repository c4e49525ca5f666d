import { bracketRoot } from '../../numerics/bracketRoot.ts'
import { rootSumOfSquares, type Range } from '../../numerics/rootSumOfSquares.ts'
import type { LineSpread } from '../../tolerance/lineSpreads.ts'
import type { Contribution, ProcessSpread } from '../../tolerance/processSpread.ts'
import type { Ratio } from '../../units/quantity.ts'
import { assumedOfLine } from '../boardIndex.ts'
import type { FindingContext } from '../context.ts'
import type { Finding, Remedy } from '../finding.ts'
import { folded, notesTogether, type Weighed } from '../folded.ts'
import { fraction, ohms } from '../measure.ts'
import {
  neckEffect,
  neckGroups,
  otherNets,
  peakOfEnd,
  scaledCase,
  triedPeak,
  type NeckEnd,
} from '../neckEnds.ts'

/** A remedy must pass, not touch. */
const SAFE_SIDE: Ratio = 0.998
/** Tolerances are asked for in whole tenths of a percent. */
const TENTH_OF_PERCENT: Ratio = 0.001
const PERCENT: Ratio = 0.01
/** Shares are drawn down to coarser steps. */
const CLOSE: Ratio = 1e-3
const AT_LIKELY_END = 'peak reflection at the likely end of the process'

/**
 * A neck whose reflection passes as described and fails at a likely end of what the process does to its impedance: width
 * and gap, copper, dielectrics, taken together as a root sum of squares. Main routes are held by coupons and stay as they
 * are. One finding for each class, package and layer, on the net that passes its limit by most.
 */
export function processDecides(context: FindingContext): Finding[] {
  const found = neckGroups(context).flatMap((group): Weighed[] => {
    const [first] = group
    const line = first && spreadOf(context, first)
    const spread = line?.spread
    if (!line || !spread) return []
    const over = passingOnlyAsDescribed(context, group, spread)
    if (over === null) return []
    const { worst, turned } = over
    const { neck, peak } = worst
    return [
      {
        finding: findingOn(worst, turned, line, spread),
        remedies: () => remediesFor(context, neck, spread),
        weight: peak / neck.end.reflection.limit,
        name: neck.signal.net,
      },
    ]
  })
  return folded(found, notesTogether)
}

function spreadOf({ lines, spreads }: FindingContext, { netClass, end }: NeckEnd): LineSpread | undefined {
  const entry = lines.neck(netClass.name, end.layer, end.package, end.gap)
  return spreads.find((spread) => spread.entry === entry)
}

interface TurnedNeck {
  readonly neck: NeckEnd
  /** At the worse of the likely ends. */
  readonly peak: Ratio
}

/**
 * Beginning with the one that sends back most as described. A neck that sends back less than another as described does so
 * at either end, too, so that the last one that fails there is found by halving.
 */
function passingOnlyAsDescribed(
  context: FindingContext,
  group: readonly NeckEnd[],
  { likely }: ProcessSpread,
): { readonly worst: TurnedNeck; readonly turned: readonly NeckEnd[] } | null {
  const passing = group
    .filter(({ end }) => neckEffect(end) === 'small')
    .toSorted((a, b) => peakOfEnd(b.end) - peakOfEnd(a.end))
  const fails = (neck: NeckEnd): boolean => peakWithin(context, neck, likely) > neck.end.reflection.limit
  const [first] = passing
  if (first === undefined || !fails(first)) return null
  let [failing, beyond] = [0, passing.length]
  while (beyond - failing > 1) {
    const middle = (failing + beyond) >>> 1
    const neck = passing[middle]
    if (neck !== undefined && fails(neck)) failing = middle
    else beyond = middle
  }
  const worst = { neck: first, peak: peakWithin(context, first, likely) }
  return { worst, turned: passing.slice(0, beyond) }
}

/** The larger peak of the two ends of a range of the neck's impedance. */
function peakWithin(context: FindingContext, neck: NeckEnd, { lowest, highest }: Range): Ratio {
  return Math.max(peakAfter(context, neck, lowest), peakAfter(context, neck, highest))
}

/** The peak with the impedance of the neck changed by a share of itself. */
function peakAfter(context: FindingContext, neck: NeckEnd, change: Ratio): Ratio {
  return triedPeak(context, neck.netClass, scaledCase(neck, 1 + change))
}

function findingOn(
  { neck, peak }: TurnedNeck,
  turned: readonly NeckEnd[],
  { entry }: LineSpread,
  { likely, contributions }: ProcessSpread,
): Weighed['finding'] {
  const { end, signal, netClass } = neck
  const granted = end.allowance !== null && !end.allowance.exceeded && netClass.reflectionLimit === null
  const { limit, limitSource } = end.reflection
  return {
    code: 'process-decides',
    severity: granted ? 'note' : 'warning',
    subject: {
      kind: 'net',
      name: signal.net,
      layer: end.layer,
      package: end.package,
      alike: otherNets(turned, neck),
    },
    measured: fraction(AT_LIKELY_END, peak),
    limit: fraction('at most', limit),
    limitSource,
    details: [
      fraction('peak reflection as described', peakOfEnd(end)),
      ohms('neck', end.neckImpedance),
      ohms('neck at the lower end', end.neckImpedance * (1 + likely.lowest)),
      ohms('neck at the upper end', end.neckImpedance * (1 + likely.highest)),
      ...largest(contributions).map((each) => fraction(toleranceOf(each), each.tolerance)),
    ],
    assumed: entry.impedance === null ? [] : assumedOfLine(entry.impedance.section),
  }
}

/** The one that moves the impedance most; none of none. */
function largest(contributions: readonly Contribution[]): Contribution[] {
  const size = ({ atLower, atUpper }: Contribution): Ratio => Math.max(Math.abs(atLower), Math.abs(atUpper))
  return contributions.toSorted((a, b) => size(b) - size(a)).slice(0, 1)
}

function toleranceOf({ quantity, of }: Contribution): string {
  return `tolerance of the ${quantity} of ${of}`
}

/** Contributions are taken as proportional to their tolerances. */
function remediesFor(
  context: FindingContext,
  neck: NeckEnd,
  { contributions, likely }: ProcessSpread,
): Remedy[] {
  const goal = SAFE_SIDE * neck.end.reflection.limit
  // One end fails by more, and is what has to be brought in; the other is looked at again in the end.
  const isLow = peakAfter(context, neck, likely.lowest) > peakAfter(context, neck, likely.highest)
  const holding: Holding = (held) => {
    const rangeAt = (share: Ratio): Range =>
      rootSumOfSquares(
        contributions.map((each) =>
          held.includes(each) ? { atLower: share * each.atLower, atUpper: share * each.atUpper } : each,
        ),
      )
    const missAt = (share: Ratio): Ratio => {
      const { lowest, highest } = rangeAt(share)
      return peakAfter(context, neck, isLow ? lowest : highest) - goal
    }
    if (missAt(0) > 0) return null
    const share = bracketRoot(missAt, 0, 1, { tolerance: CLOSE })
    return { share, peakAt: (tried) => peakWithin(context, neck, rangeAt(tried)) }
  }
  return [...closerInput(largest(contributions), holding), ...closerAll(contributions, holding)].filter(
    ({ result }) => result.value <= neck.end.reflection.limit,
  )
}

type Holding = (
  held: readonly Contribution[],
) => { readonly share: Ratio; readonly peakAt: (share: Ratio) => Ratio } | null

/** The input that moves the impedance most, held closer, if that alone is enough. */
function closerInput(inputs: readonly Contribution[], holding: Holding): Remedy[] {
  return inputs.flatMap((input) => {
    const held = holding([input])
    const tolerance = held === null ? 0 : wholeSteps(held.share * input.tolerance, TENTH_OF_PERCENT)
    if (held === null || !(tolerance > 0)) return []
    return [
      {
        action: `have the fabricator hold the ${input.quantity} of ${input.of} to plus or minus`,
        value: fraction('tolerance, plus or minus', tolerance),
        result: fraction(AT_LIKELY_END, held.peakAt(tolerance / input.tolerance)),
      },
    ]
  })
}

function closerAll(inputs: readonly Contribution[], holding: Holding): Remedy[] {
  const held = holding(inputs)
  const share = held === null ? 0 : wholeSteps(held.share, PERCENT)
  if (held === null || !(share > 0)) return []
  return [
    {
      action: 'cut every tolerance of this line to a share of',
      value: fraction('share of every tolerance', share),
      result: fraction(AT_LIKELY_END, held.peakAt(share)),
    },
  ]
}

function wholeSteps(value: Ratio, step: Ratio): Ratio {
  return Math.floor(value / step) * step
}
