import type { Board } from '../board/board.ts'
import type { Net, NetClass } from '../board/nets.ts'
import { groupBy } from '../numerics/groupBy.ts'
import type { Seconds } from '../units/quantity.ts'
import type { NetSignal, Skew } from './netSignal.ts'

/**
 * Difference between the latest and the earliest arrival inside each pair and each match group, in the order
 * of the nets; packages' own delays and barrels included.
 *
 * Nets without a route take no part. As long as one member has no main length of its own the breakouts alone
 * are compared, for all members, and the skew is what the main routes must take up; a length that a class
 * gives for all its nets is a plan, not a route that has been matched. A group's limit is the tightest that its members' classes give.
 */
export function skews(board: Board, signals: readonly NetSignal[]): Skew[] {
  const classes = new Map(board.classes.map((netClass) => [netClass.name, netClass]))
  const signalOf = new Map(signals.map((signal) => [signal.net, signal]))
  const arrivals = new Map<string, Arrival>()
  for (const net of board.nets) {
    const netClass = classes.get(net.class)
    const signal = signalOf.get(net.name)
    if (netClass === undefined || signal === undefined) continue
    const main = signal.sections.find(({ kind }) => kind === 'main')?.delay ?? null
    const breakoutDelay = signal.totalDelay - (main ?? 0) + (net.packageDelay ?? 0)
    const mainDelay = net.mainLength === null ? null : main
    arrivals.set(net.name, { net, netClass, breakoutDelay, mainDelay })
  }
  return [...pairSkews(arrivals), ...groupSkews(arrivals)]
}

interface Arrival {
  readonly net: Net
  readonly netClass: NetClass
  /** Everything but the main route. */
  readonly breakoutDelay: Seconds
  /** Null while the net has no main length of its own, or its line is unknown. */
  readonly mainDelay: Seconds | null
}

function pairSkews(arrivals: ReadonlyMap<string, Arrival>): Skew[] {
  const done = new Set<string>()
  return [...arrivals.values()].flatMap((one) => {
    const other = one.net.partner === null ? undefined : arrivals.get(one.net.partner)
    if (other === undefined || done.has(one.net.name)) return []
    done.add(one.net.name).add(other.net.name)
    const [positive, negative] = other.net.polarity === 'positive' ? [other, one] : [one, other]
    const limit = tightest([one.netClass.pairSkewLimit, other.netClass.pairSkewLimit])
    return [skewOf('pair', `${positive.net.name} and ${negative.net.name}`, [positive, negative], limit)]
  })
}

function groupSkews(arrivals: ReadonlyMap<string, Arrival>): Skew[] {
  const matched = [...arrivals.values()].filter(({ net }) => net.matchGroup !== null)
  const groups = groupBy(matched, ({ net }) => net.matchGroup ?? '')
  return [...groups].flatMap(([name, members]) => {
    if (members.length < 2) return []
    return [skewOf('group', name, members, tightest(members.map(({ netClass }) => netClass.groupSkewLimit)))]
  })
}

function skewOf(kind: Skew['kind'], name: string, members: readonly Arrival[], limit: Seconds | null): Skew {
  const toBeCompensated = members.some(({ mainDelay }) => mainDelay === null)
  const inOrder = members
    .map(({ net, breakoutDelay, mainDelay }) => ({
      net: net.name,
      delay: breakoutDelay + (toBeCompensated ? 0 : (mainDelay ?? 0)),
    }))
    .sort((a, b) => a.delay - b.delay)
  const [earliest] = inOrder
  const latest = inOrder.at(-1)
  if (earliest === undefined || latest === undefined) throw new RangeError(`${kind} ${name} has no nets`)
  return {
    kind,
    name,
    nets: members.map(({ net }) => net.name),
    earliest,
    latest,
    skew: latest.delay - earliest.delay,
    limit,
    toBeCompensated,
  }
}

function tightest(limits: readonly (Seconds | null)[]): Seconds | null {
  const given = limits.filter((limit): limit is number => limit !== null)
  return given.length === 0 ? null : Math.min(...given)
}
