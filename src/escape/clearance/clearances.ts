import type { Board } from '../../board/board.ts'
import type { OuterInner } from '../../board/fabrication.ts'
import type { Package } from '../../board/packages.ts'
import type { Metres } from '../../units/quantity.ts'
import { areaLimit, copperLimit, larger, smaller } from './limit.ts'
import type { Limit } from './limit.ts'
import { isBefore, isLine, isTrace } from './shape.ts'
import type { Shape } from './shape.ts'

/** What the rules ask on one layer. */
export interface Clearances {
  readonly outer: boolean
  /** Narrowest gap that the fabricator makes. */
  readonly traceGap: Limit
  readonly toPad: Limit
  readonly opening: Limit
  readonly hole: Limit
  readonly pads: Limit
  readonly keepOut: Limit
  readonly apart: readonly { readonly groups: readonly [string, string]; readonly limit: Limit }[]
}

export function clearancesOn(board: Board, pack: Package, layer: number): Clearances {
  const { fabrication } = board
  const tolerance = board.analysis.comparisonTolerance
  const outer = layer === 1 || layer === board.stackup.copper.length
  const figure = (rule: OuterInner): Metres => (outer ? rule.outer : rule.inner)
  return {
    outer,
    traceGap: copperLimit('trace to trace', figure(fabrication.traceGap), tolerance),
    toPad: copperLimit('trace to pad', figure(fabrication.traceToPad), tolerance),
    opening: areaLimit('mask opening to trace', fabrication.maskOpeningToTrace, tolerance),
    hole: copperLimit('drill to copper', fabrication.drillToCopper, tolerance),
    pads: copperLimit('pad to pad', 0, tolerance),
    keepOut: areaLimit('keep-out', 0, tolerance),
    apart: pack.escape.apart.map(({ groups, gap }) => ({
      groups,
      limit: copperLimit('trace to trace', gap, tolerance),
    })),
  }
}

/** What must lie between the edges of two shapes of different nets; null where no rule says anything. */
export function limitBetween(clearances: Clearances, one: Shape, other: Shape): Limit | null {
  return isBefore(one, other) ? limitOf(clearances, one, other) : limitOf(clearances, other, one)
}

function limitOf(clearances: Clearances, subject: Shape, object: Shape): Limit | null {
  if (isLine(subject)) return limitOfLine(clearances, subject, object)
  const pads = subject.kind === 'via pad' && (object.kind === 'via pad' || object.kind === 'land')
  return pads ? clearances.pads : null
}

function limitOfLine(clearances: Clearances, line: Shape, object: Shape): Limit | null {
  switch (object.kind) {
    case 'main route':
    case 'trace':
    case 'dog-bone':
      return gapBetween(clearances, line, object)
    case 'via pad':
    case 'land':
      return clearances.toPad
    case 'hole':
      return clearances.hole
    case 'mask opening':
      return clearances.opening
    case 'keep-out':
      return isTrace(line) ? clearances.keepOut : null
  }
}

/**
 * The larger of the gaps of the two nets. The two of a pair keep the gap that their routes state, but never less than both
 * their class and the fabricator allow; their main routes may come as near as the gap between those. Traces of groups that are kept apart keep at least that gap.
 */
function gapBetween(clearances: Clearances, one: Shape, other: Shape): Limit {
  const [mine, theirs] = [gapOf(clearances, one), gapOf(clearances, other)]
  if (one.owner.partner === other.owner.net && other.owner.partner === one.owner.net) {
    const coupled = coupledBetween(one, other)
    if (coupled === null) return larger(mine, theirs)
    return larger(coupled, smaller(clearances.traceGap, smaller(mine, theirs)))
  }
  const gap = larger(mine, theirs)
  if (clearances.apart.length === 0 || !isTrace(one) || !isTrace(other)) return gap
  return apartGap(clearances, one.owner.matchGroup, other.owner.matchGroup, gap)
}

function gapOf(clearances: Clearances, line: Shape): Limit {
  return clearances.outer ? line.owner.outerGap : line.owner.innerGap
}

function coupledBetween(one: Shape, other: Shape): Limit | null {
  const necks = bothCoupled(one, other)
  const mains = one.kind === 'main route' && other.kind === 'main route' ? one.owner.mainGap : null
  return necks === null || mains === null ? necks : smaller(necks, mains)
}

function bothCoupled(one: Shape, other: Shape): Limit | null {
  const [mine, theirs] = [one.owner.coupledGap, other.owner.coupledGap]
  if (mine === null || theirs === null) return mine ?? theirs
  return smaller(mine, theirs)
}

function apartGap(clearances: Clearances, one: string | null, other: string | null, gap: Limit): Limit {
  if (one === null || other === null) return gap
  return clearances.apart.reduce((most, { groups: [first, second], limit }) => {
    const meant = (one === first && other === second) || (one === second && other === first)
    return meant ? larger(most, limit) : most
  }, gap)
}
