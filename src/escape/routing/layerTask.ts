import type { NetClass } from '../../board/nets.ts'
import type { Metres } from '../../units/quantity.ts'
import { fitChannel } from '../channelFit.ts'
import { neckOf } from '../neck.ts'
import type { Neck } from '../neck.ts'
import type { PlanJob } from '../planJob.ts'
import { unitChannel } from '../unitChannel.ts'
import type { ClosedArea } from './closeWays.ts'
import type { TraceNeeds } from './layerCopper.ts'

/** What stays the same while one layer is planned. */
export interface LayerTask {
  readonly job: PlanJob
  readonly layer: number
  readonly areas: readonly ClosedArea[]
  neckFor(netClass: NetClass): Neck
  /** Whole traces of this width and gap through the usual channel, in its narrower direction. */
  readonly tracksOf: (width: Metres, gap: Metres) => number
  /** What the trace of a ball asks of its surroundings, with its mate at the gap of the pair. */
  needsOf(
    ball: number,
    width: Metres,
    mate: { readonly ball: number; readonly gap: Metres } | null,
  ): TraceNeeds
}

export function layerTask(job: PlanJob, layer: number): LayerTask {
  const channel = unitChannel(job.board, job.pack, job.chains, layer)
  const necks = new Map<string, Neck>()
  const neckFor = (netClass: NetClass): Neck => {
    const known = necks.get(netClass.name)
    if (known !== undefined) return known
    const neck = neckOf(job.board, netClass, layer, channel?.clear ?? 0)
    necks.set(netClass.name, neck)
    return neck
  }
  return {
    job,
    layer,
    areas: job.pack.escape.keepOuts.filter(({ layers }) => layers.includes(layer)),
    neckFor,
    tracksOf: (width, gap) =>
      channel === null
        ? 0
        : fitChannel({
            span: Math.min(channel.pitch.x, channel.pitch.y),
            rules: channel.rules,
            width,
            traceGap: gap,
            tolerance: job.board.analysis.comparisonTolerance,
          }).traces,
    needsOf: (ball, width, mate) => {
      const netClass = job.classOf[ball]
      const own = netClass === undefined ? 0 : neckFor(netClass).traceGap
      return {
        ball,
        width,
        largestGap: Math.max(own, job.largestApart),
        gapTo: (other) => (mate?.ball === other ? mate.gap : Math.max(own, job.apart(ball, other))),
      }
    },
  }
}
