import { formatLength } from '../units/format.ts'
import type { Metres } from '../units/quantity.ts'
import { figureOn } from './clearanceRules.ts'
import { isOuter } from './chainReach.ts'
import type { LayerBound } from './escape.ts'
import { landPad, standingPad } from './overlap.ts'
import { landsTouch, layerName, layersFor } from './planJob.ts'
import type { PlanJob } from './planJob.ts'
import type { Candidate, Unit } from './routing/waiting.ts'
import type { ViaChain } from './viaChain.ts'

/** Gates of a cut that are named. */
const NAMED = 2

/**
 * Why a ball does not leave, in one sentence with the figures that decide it and what would open the way.
 * @param placesOn By layer: places that lie on all ways out of the ball along the lanes, each taken by another trace; 0
 * where what stands there closes them all; null where it has a way.
 */
export function whyNot(
  job: PlanJob,
  unit: Unit,
  candidate: Candidate,
  bounds: ReadonlyMap<number, LayerBound>,
  placesOn: (layer: number) => number | null,
): string {
  const layers = layersFor(job, unit.asked)
  const last = layers.at(-1)
  if (last === undefined) return noLayer(job, candidate)
  const bound = bounds.get(last)
  const where =
    layers.length === 1
      ? layerName(job, last)
      : `${layerName(job, last)}, the last of ${layers.length} layers left to it`
  const side = candidate.side === null ? '' : ` through the ${candidate.side} side, as asked`
  if (bound === undefined || bound.cut.length === 0 || bound.escaped >= bound.waiting) {
    return `no free way out was found on ${where}${side}${alongLanes(placesOn(last))}`
  }
  const comma = layers.length === 1 ? '' : ','
  return `${where}${comma} lets out ${bound.escaped} of ${bound.waiting} that wait, and no layout more than ${bound.atMost}: ${gatesText(job, bound)}${openers(job, last, bound)}${side === '' ? '' : `; it may only leave${side}`}`
}

function alongLanes(places: number | null): string {
  if (places === null) return ': it was tried after what lies there already'
  if (places === 0) return ': lands, vias and dog-bones close every lane about it'
  return places === 1
    ? ': along the lanes every way out passes one place that another trace takes'
    : `: along the lanes every way out passes one of ${places} places that other traces take`
}

function gatesText(job: PlanJob, { cut, width, gap }: LayerBound): string {
  const length = lengthIn(job)
  const total = cut.reduce((sum, { traces }) => sum + traces, 0)
  const named = cut.slice(0, NAMED).map(({ balls: [one, other] }) => `${one}–${other}`)
  const more = cut.length > NAMED ? ' and on' : ''
  return `a cut of ${cut.length} gates (${named.join(', ')}${more}) takes ${total} traces of ${length(width)} at ${length(gap)}`
}

/** What would let one more trace through the gate that is nearest to it. */
function openers(job: PlanJob, layer: number, { cut, width, gap }: LayerBound): string {
  const length = lengthIn(job)
  const nearest = cut
    .map(({ clear, traces }) => ({ clear, traces, short: (traces + 1) * width + traces * gap - clear }))
    .toSorted((a, b) => a.short - b.short)[0]
  if (nearest === undefined) return ''
  const { clear, traces, short } = nearest
  const narrower = (clear - traces * gap) / (traces + 1)
  const least = figureOn(isOuter(job.board, layer), job.board.fabrication.traceWidth)
  const finer = narrower >= least ? '' : `, finer than the ${length(least)} that the fabricator makes`
  const ways = [
    // Gaps alone may take up the room.
    ...(narrower > 0 ? [`traces of ${length(narrower)}${finer}`] : []),
    `pads ${length(short)} smaller`,
  ]
  return `; one more passes the widest of them with ${ways.join(', or with ')}`
}

function noLayer(job: PlanJob, candidate: Candidate): string {
  const length = lengthIn(job)
  if (landsTouch(job)) {
    return `lands of ${length(job.pack.landDiameter)} touch each other ${length(job.nearest.lands)} apart`
  }
  const asked = candidate.exitLayer
  if (asked !== null && !job.signalLayers.includes(asked)) {
    return `it is to leave on ${layerName(job, asked)}, which carries no signals out`
  }
  const touching = asked === null ? [...job.touching.values()][0] : job.touching.get(asked)
  const why =
    touching === undefined
      ? `no described ${viaWord(job)} reaches`
      : `via ${touching.name} cannot reach: ${touchText(job, touching)}`
  return asked === null
    ? `the layer of its land carries no signals; for those below, ${why}${touching === undefined ? ' any' : ''}`
    : `it is to leave on ${layerName(job, asked)}, which ${why}`
}

function touchText(job: PlanJob, chain: ViaChain): string {
  const length = lengthIn(job)
  const pad = standingPad(chain)
  if (pad >= job.nearest.vias)
    return `its pads of ${length(pad)} touch each other ${length(job.nearest.vias)} apart`
  return `its pads of ${length(landPad(chain))} touch lands of ${length(job.pack.landDiameter)} whose centres are ${length(job.nearest.viaToLand)} away`
}

function viaWord(job: PlanJob): string {
  return job.technology === 'through' ? 'through via' : 'via'
}

function lengthIn(job: PlanJob): (metres: Metres) => string {
  return (metres) => formatLength(metres, job.board.displayUnit)
}
