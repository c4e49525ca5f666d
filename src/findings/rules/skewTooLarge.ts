import type { Skew } from '../../signal/netSignal.ts'
import type { Seconds } from '../../units/quantity.ts'
import { boardIndex } from '../boardIndex.ts'
import type { FindingContext } from '../context.ts'
import { drawnNearest } from '../drawn.ts'
import { folded, type Weighed } from '../folded.ts'
import type { Finding, Remedy } from '../finding.ts'
import { count, metres, seconds, words } from '../measure.ts'

/**
 * Arrivals of a pair or match group that spread more than allowed. An error once the main lengths are given;
 * before, a note of what the main routes must take up. Without a limit nothing is said.
 */
export function skewTooLarge(context: FindingContext): Finding[] {
  const found = context.skews.flatMap((skew) => {
    if (skew.limit === null || skew.skew <= skew.limit) return []
    const finding: Weighed['finding'] = {
      code: 'skew-too-large',
      severity: skew.toBeCompensated ? 'note' : 'error',
      subject: { kind: skew.kind, name: skew.name, layer: null, package: null, alike: [] },
      measured: seconds(
        skew.toBeCompensated ? 'skew of the breakouts, which the main routes must take up,' : 'skew',
        skew.skew,
      ),
      limit: seconds('at most', skew.limit),
      limitSource: limitSource(context, skew),
      details: [
        words(`earliest ${skew.earliest.net}, latest ${skew.latest.net}`),
        count('nets', skew.nets.length),
      ],
      assumed: assumedOf(context, skew),
    }
    const { limit } = skew
    const remedies = (): Remedy[] => lengthen(context, skew, limit)
    return [{ finding, remedies, weight: skew.skew / limit, name: skew.name }]
  })
  return folded(found, keyOf)
}

/** What the main routes have to take up is one note for each limit; skew that is there is a finding each. */
function keyOf({ severity, subject, limit, limitSource }: Weighed['finding']): string {
  return severity === 'note' ? [subject.kind, limit.value, limitSource].join('|') : subject.name
}

function limitSource(context: FindingContext, skew: Skew): string {
  const key = skew.kind === 'pair' ? 'pair_skew_limit' : 'group_skew_limit'
  const { classOfNet } = boardIndex(context)
  const netClass = classOfNet.get(skew.earliest.net)
  const assumed = netClass?.assumed.find(({ path }) => path.endsWith(key))
  return assumed?.source ?? `limit of class ${netClass?.name ?? ''}`
}

function assumedOf(context: FindingContext, skew: Skew): Finding['assumed'] {
  const members = new Set(skew.nets)
  return context.board.nets.filter(({ name }) => members.has(name)).flatMap((net) => net.assumed)
}

/**
 * Every net that comes earlier than the limit allows, lengthened until it meets the latest; the figure is that
 * of the earliest, on the layer of its main route.
 */
function lengthen(context: FindingContext, skew: Skew, limit: Seconds): Remedy[] {
  const arrivals = arrivalsOf(context, skew)
  const early = arrivals.filter(({ delay }) => skew.latest.delay - delay > limit)
  const rest = arrivals.filter(({ delay }) => skew.latest.delay - delay <= limit)
  const main = context.signals
    .find(({ net }) => net === skew.earliest.net)
    ?.sections.find(({ kind }) => kind === 'main')
  const line =
    main && context.lines.main(boardIndex(context).classOfNet.get(skew.earliest.net)?.name ?? '', main.layer)
  if (!line?.impedance || early.length === 0) return []
  const { delay } = line.impedance
  const length = drawnNearest(context.board, skew.skew / delay)
  const lengthened = skew.earliest.delay + length * delay
  const arrived = [skew.latest.delay, lengthened, ...rest.map((arrival) => arrival.delay)]
  const left = Math.max(...arrived) - Math.min(...arrived)
  const others = early.length - 1
  const whom = others === 0 ? '' : `, and ${others} more by less,`
  return [
    {
      action: `lengthen the main route of ${skew.earliest.net}${whom} by`,
      value: metres('length', length),
      result: seconds('skew', left),
    },
  ]
}

/** Arrivals as the skew compares them: without main routes while one of them is open. */
function arrivalsOf(context: FindingContext, skew: Skew): { net: string; delay: Seconds }[] {
  const members = new Set(skew.nets)
  const packageDelays = new Map(context.board.nets.map((net) => [net.name, net.packageDelay ?? 0]))
  return context.signals
    .filter(({ net }) => members.has(net))
    .map(({ net, totalDelay, sections }) => {
      const main = sections.find(({ kind }) => kind === 'main')?.delay ?? 0
      const delay = totalDelay - (skew.toBeCompensated ? main : 0) + (packageDelays.get(net) ?? 0)
      return { net, delay }
    })
}
