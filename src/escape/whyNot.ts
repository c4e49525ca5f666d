import { formatLength } from '../units/format.ts'
import type { Metres } from '../units/quantity.ts'
import type { LayerResult } from './planLayer.ts'
import { neckOf } from './neck.ts'
import { standingPad } from './overlap.ts'
import { landsTouch, layerName, layersFor } from './planJob.ts'
import type { PlanJob } from './planJob.ts'
import type { Candidate, Unit } from './runner.ts'
import { unitChannel } from './unitChannel.ts'

/** Why a ball does not leave, in one sentence with the figures that decide it. */
export function whyNot(
  job: PlanJob,
  unit: Unit,
  candidate: Candidate,
  results: ReadonlyMap<number, LayerResult>,
): string {
  const layers = layersFor(job, unit.asked)
  const last = layers.at(-1)
  const result = last === undefined ? undefined : results.get(last)
  if (last === undefined || result === undefined) return noLayer(job, candidate)
  const lanes = result.seating.lanesBeside(candidate.ball)
  const clears = lanes.map((lane) => {
    const { low, high } = lane.bounds(candidate.ring - 1)
    return { clear: high - low, traces: result.seating.usersOf(lane).length }
  })
  const widest = clears.toSorted((a, b) => b.clear - a.clear)[0]
  if (widest === undefined) return boxedIn(job, candidate, last)
  const length = lengthIn(job)
  const neck = neckFor(job, candidate, last)
  const where =
    layers.length === 1
      ? layerName(job, last)
      : `${layerName(job, last)}, the last of ${layers.length} layers`
  const short = neck - widest.clear
  if (short > job.board.analysis.comparisonTolerance) {
    return `no channel beside it on ${where} takes a trace: ${length(Math.max(widest.clear, 0))} clear in the widest, ${length(neck)} needed, ${length(short)} short`
  }
  if (widest.traces === 0) {
    return `a trace of ${length(neck)} cannot turn from its place into a channel beside it on ${where} without coming too near to a neighbour`
  }
  const taken = clears.map(({ clear, traces }) => `${traces} in ${length(Math.max(clear, 0))}`).join(', ')
  return `the channels beside it on ${where} are full (traces in clear width: ${taken}; one more of ${length(neck)} does not fit)`
}

function noLayer(job: PlanJob, candidate: Candidate): string {
  const length = lengthIn(job)
  if (landsTouch(job)) {
    return `lands of ${length(job.pack.landDiameter)} touch each other ${length(job.nearest.lands)} apart`
  }
  const asked = candidate.exitLayer
  if (asked !== null && !job.signalLayers.includes(asked)) {
    return `it is to leave on ${layerName(job, asked)}, which carries no signals`
  }
  const touching = asked === null ? [...job.touching.values()][0] : job.touching.get(asked)
  const why =
    touching === undefined
      ? `no described ${viaWord(job)} reaches`
      : `via ${touching.name} cannot reach: its pads of ${length(standingPad(touching))} touch each other ${length(job.nearest.vias)} apart`
  return asked === null
    ? `the layer of its land carries no signals; for those below, ${why}${touching === undefined ? ' any' : ''}`
    : `it is to leave on ${layerName(job, asked)}, which ${why}`
}

function viaWord(job: PlanJob): string {
  return job.technology === 'through' ? 'through via' : 'via'
}

/** No lane lies beside the ball, and the way straight ahead is blocked. */
function boxedIn(job: PlanJob, candidate: Candidate, layer: number): string {
  const neck = neckFor(job, candidate, layer)
  return `a trace of ${lengthIn(job)(neck)} comes too near to what stands beside its place on ${layerName(job, layer)}, and no channel lies beside it`
}

function neckFor(job: PlanJob, candidate: Candidate, layer: number): Metres {
  const channel = unitChannel(job.board, job.pack, job.chains, layer)
  return neckOf(job.board, candidate.netClass, layer, channel?.clear ?? 0).width
}

function lengthIn(job: PlanJob): (metres: Metres) => string {
  return (metres) => formatLength(metres, job.board.displayUnit)
}
