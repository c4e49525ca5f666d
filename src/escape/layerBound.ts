import type { Metres, Point } from '../units/quantity.ts'
import { atLeastLayers } from './capacity/atLeastLayers.ts'
import { gatesOf } from './capacity/gates.ts'
import { layerCapacity } from './capacity/layerCapacity.ts'
import type { LayerMap, Site } from './capacity/layerMap.ts'
import type { LayerBound } from './escape.ts'
import { stepAcross, stepUpwards } from './field.ts'
import { neckOf } from './neck.ts'
import { landsTouch, mayLeaveOn } from './planJob.ts'
import type { PlanJob } from './planJob.ts'
import type { Candidate } from './routing/waiting.ts'
import type { BallStates } from './routing/layerGround.ts'
import { unitChannel, viaGrid } from './unitChannel.ts'
import { goesThrough } from './viaChain.ts'

/**
 * What one layer lets out at most, with every waiting ball as a single trace of the finest width and gap among them.
 * Obstacles count with the least they can be: lands on their layer, whose dog-bone vias are left out; elsewhere the
 * vias that stand however the layer is filled. Null where balls lie off their grid, or none waits.
 */
export function layerBound(
  job: PlanJob,
  layer: number,
  waiting: readonly Candidate[],
  escaped: number,
  reach: (ball: number) => Metres,
): LayerBound | null {
  if (waiting.length === 0 || !job.field.aligned) return null
  const map = mapOf(job, layer, waiting, reach)
  const capacity = layerCapacity(map)
  const nameAt = (site: Site): { ball: string; at: Point } | null => {
    const ball = job.field.cells[site.row * job.field.columns + site.column] ?? -1
    const at = (layer === job.landLayer ? job.field.lands : job.field.vias)[ball]
    const name = job.pack.balls[ball]?.name
    return at === undefined || name === undefined ? null : { ball: name, at }
  }
  return {
    waiting: waiting.length,
    escaped,
    atMost: capacity.atMost,
    width: map.width,
    gap: map.gap,
    cut: gatesOf(capacity, nameAt),
  }
}

/**
 * Signal layers below which no plan gets every signal ball out, with vias where this package has them and with those of
 * power and ground alone in the way, and no more traces than fit side by side round the array; null where no number of
 * layers is enough.
 */
export function leastLayers(job: PlanJob): number | null {
  const { candidates, landLayer, landReach, field } = job
  if (candidates.length === 0) return 0
  if (landsTouch(job)) return null
  const known = new Map<string, number>()
  const most = job.signalLayers.map((layer): number => {
    const waiting = candidates.filter(({ exitLayer }) => mayLeaveOn(job, exitLayer, layer))
    if (waiting.length === 0 || !field.aligned) return waiting.length
    const reach = (ball: number): Metres => {
      if (layer === landLayer) return landReach
      const supply = job.supplies[ball] ?? null
      return supply === null ? 0 : job.reach(supply, layer, false)
    }
    const map = mapOf(job, layer, waiting, reach)
    // Inner layers are mostly alike; a bound holds for another layer only where its whole map is the same.
    const key = JSON.stringify(map)
    const most = known.get(key) ?? Math.min(layerCapacity(map).atMost, roundStarts(job, layer, waiting, map))
    known.set(key, most)
    return most
  })
  return atLeastLayers(candidates.length, most)
}

/**
 * Traces that fit side by side all the way round the places from which they start. Each crosses the rectangle about
 * these places, and the points at which two do so are a width and a gap apart, measured straight and so along the
 * rectangle too: the traces are no more than the times this goes into the way round.
 */
function roundStarts(job: PlanJob, layer: number, waiting: readonly Candidate[], map: LayerMap): number {
  const sites = layer === job.landLayer ? job.field.lands : job.field.vias
  const starts = waiting.flatMap(({ ball }) => sites[ball] ?? [])
  const round = 2 * (extent(starts.map(({ x }) => x)) + extent(starts.map(({ y }) => y)))
  const each = map.width + map.gap - map.tolerance
  return Math.max(1, Math.floor(round / each + ROUNDING))
}

/** Share of a trace that sums of lengths may lose by rounding; counting it in keeps an upper bound one. */
const ROUNDING = 1e-9

function extent(places: readonly Metres[]): Metres {
  return (
    places.reduce((most, place) => Math.max(most, place), -Infinity) -
    places.reduce((least, place) => Math.min(least, place), Infinity)
  )
}

/** The least that stands at a ball on a layer, however it is filled. */
export function leastReach(job: PlanJob, layer: number, states: BallStates): (ball: number) => Metres {
  const own = job.chains.get(layer)
  return (ball) => {
    if (layer === job.landLayer) return job.landReach
    const supply = job.supplies[ball] ?? null
    if (supply !== null) return job.reach(supply, layer, false)
    const state = states[ball]
    if (state?.kind === 'gone') return state.chain === null ? 0 : job.reach(state.chain, layer, false)
    if (state?.kind !== 'tries' || own === undefined) return 0
    // A via that goes through stands here whether its net leaves or not, unless that leaves from its land later; one
    // that ends here may not be drilled.
    return goesThrough(own) && !isLandLater(job, state.asked, layer) ? job.reach(own, layer, false) : 0
  }
}

/** True where a net that does not leave on this layer may be let out on that of its land when its turn comes. */
function isLandLater(
  { prefersDeep, signalLayers, landLayer }: PlanJob,
  asked: number | null,
  layer: number,
): boolean {
  if (asked !== null) return false
  const turn = signalLayers.indexOf(landLayer)
  return turn !== -1 && (prefersDeep || turn > signalLayers.indexOf(layer))
}

function mapOf(
  job: PlanJob,
  layer: number,
  waiting: readonly Candidate[],
  reach: (ball: number) => Metres,
): LayerMap {
  const { field, pack } = job
  const channel = unitChannel(job.board, pack, job.chains, layer)
  const necks = [...new Set(waiting.map(({ netClass }) => netClass))].map((netClass) =>
    neckOf(job.board, netClass, layer, channel?.clear ?? 0),
  )
  const widths = necks.flatMap(({ width, coupled }) => (coupled === null ? [width] : [width, coupled.width]))
  const onLand = layer === job.landLayer
  const pitch = onLand ? pack.pitch : viaGrid(pack)
  const shift = !onLand && field.dogBone ? 0.5 : 0
  const across = (column: number): Metres =>
    (column - (field.columns - 1) / 2 + shift * stepAcross(field.direction, column, field.columns)) * pitch.x
  const upwards = (row: number): Metres =>
    ((field.rows - 1) / 2 - row + shift * stepUpwards(field.direction, row, field.rows)) * pitch.y
  return {
    xs: Array.from({ length: field.columns }, (_, column) => across(column)),
    ys: Array.from({ length: field.rows }, (_, row) => upwards(row)),
    reach: Array.from({ length: field.rows }, (_, row) =>
      Array.from({ length: field.columns }, (_unused, column) => {
        const ball = field.cells[row * field.columns + column] ?? -1
        return ball === -1 ? 0 : reach(ball)
      }),
    ),
    sources: waiting.map(({ ball }) => ({
      row: pack.balls[ball]?.row ?? 0,
      column: pack.balls[ball]?.column ?? 0,
    })),
    width: Math.min(...widths),
    gap: Math.min(...necks.map(({ traceGap }) => traceGap)),
    tolerance: job.board.analysis.comparisonTolerance,
  }
}
