import type { Metres, Point } from '../../units/quantity.ts'
import { layersLeft, mayLeaveOn } from '../planJob.ts'
import type { PlanJob } from '../planJob.ts'
import { viaGrid } from '../unitChannel.ts'
import type { ViaChain } from '../viaChain.ts'
import type { Ends } from './lattice.ts'

/** What a signal ball does on the layer being planned, as far as is known. */
export type BallState =
  /** Has left, on another layer or on this one, through this chain; null where it left from its land. */
  | { readonly kind: 'gone'; readonly chain: ViaChain | null }
  /** Tries to leave here, and otherwise elsewhere. */
  | { readonly kind: 'tries'; readonly asked: number | null }
  /** Leaves here. */
  | { readonly kind: 'leaves'; readonly asked: number | null }
  /** Does not leave here now: elsewhere, on the layer asked for or on any, here later, or nowhere. */
  | { readonly kind: 'stays'; readonly asked: number | null }

/** By index of the ball; absent for balls that are no signals. */
export type BallStates = readonly (BallState | undefined)[]

/** A land or a via. */
export interface StandingDisc {
  readonly ball: number
  readonly at: Point
  /** From its centre to the nearest edge of a trace. */
  readonly reach: Metres
}

/** Copper from a land to its via. */
export interface Bone {
  readonly ball: number
  readonly from: Point
  readonly to: Point
  readonly width: Metres
}

/** What stands on one copper layer under the package. */
export interface LayerGround {
  readonly layer: number
  /** Where each ball's net starts on this layer: at its land, or at its via. */
  readonly starts: readonly Point[]
  /** What stands at each start; reach 0 for nothing. */
  readonly own: readonly Metres[]
  /** Dog-bone vias between the lands; none elsewhere. */
  readonly between: readonly StandingDisc[]
  readonly bones: readonly Bone[]
  /** Vias and dog-bones of balls that try to leave here: they stand only where the ball fails, so its own net may pass. */
  readonly ifFailed: { readonly vias: readonly StandingDisc[]; readonly bones: readonly Bone[] }
  readonly ends: Ends
}

/**
 * What stands on one layer, every net counted: vias of power and ground, of nets that left before where their
 * holes reach this far, and of those that may leave here or elsewhere yet, with the pad that a trace joins or the most
 * that leaving elsewhere would need. Nothing where a ball is missing.
 */
export function layerGround(job: PlanJob, layer: number, states: BallStates): LayerGround {
  return layer === job.landLayer ? landGround(job, states) : viaGround(job, layer, states)
}

function viaGround(job: PlanJob, layer: number, states: BallStates): LayerGround {
  const chain = job.chains.get(layer)
  const stays = staying(job, layer)
  const own = job.field.lands.map((_, ball): Metres => {
    const supply = job.supplies[ball] ?? null
    if (supply !== null) return job.reach(supply, layer, false)
    const state = states[ball]
    if (state === undefined) return 0
    if (state.kind === 'gone') {
      return state.chain === null ? 0 : job.reach(state.chain, layer, state.chain.exitLayer === layer)
    }
    const elsewhere = stays(state.asked)
    // What stays now may leave here when the layer is filled again.
    return chain !== undefined && mayLeaveOn(job, state.asked, layer)
      ? Math.max(elsewhere, job.reach(chain, layer, true))
      : elsewhere
  })
  return {
    layer,
    starts: job.field.vias,
    own,
    between: [],
    bones: [],
    ifFailed: { vias: [], bones: [] },
    ends: endsOf(job, layer),
  }
}

/** Balls that keep no via have only their land; the via of the others stands in it, or beside it as a dog-bone. */
function landGround(job: PlanJob, states: BallStates): LayerGround {
  const { field, landLayer, landReach } = job
  const stays = staying(job, landLayer)
  const reachOf = (ball: number): Metres => {
    const supply = job.supplies[ball] ?? null
    if (supply !== null) return job.reach(supply, landLayer, true)
    const state = states[ball]
    if (state === undefined || state.kind === 'leaves') return 0
    if (state.kind === 'gone') return state.chain === null ? 0 : job.reach(state.chain, landLayer, true)
    return stays(state.asked)
  }
  const base = { layer: landLayer, starts: field.lands, ends: endsOf(job, landLayer) }
  if (!field.dogBone) {
    const own = field.lands.map((_, ball) => Math.max(reachOf(ball), landReach))
    return { ...base, own, between: [], bones: [], ifFailed: { vias: [], bones: [] } }
  }
  const vias = field.vias.flatMap((at, ball): StandingDisc[] => {
    const reach = reachOf(ball)
    return reach === 0 ? [] : [{ ball, at, reach }]
  })
  const tries = ({ ball }: StandingDisc): boolean => states[ball]?.kind === 'tries'
  const standing = vias.filter((via) => !tries(via))
  const waiting = vias.filter(tries)
  return {
    ...base,
    own: field.lands.map(() => landReach),
    between: standing,
    bones: bonesOf(job, standing),
    ifFailed: { vias: waiting, bones: bonesOf(job, waiting) },
  }
}

function bonesOf(job: PlanJob, vias: readonly StandingDisc[]): Bone[] {
  return vias.flatMap(({ ball, at }): Bone[] => {
    const from = job.field.lands[ball]
    return from === undefined ? [] : [{ ball, from, to: at, width: job.boneWidth(ball) }]
  })
}

/** What a ball that leaves elsewhere takes up here, by the layer asked for: the most that any layer left to it needs. */
function staying(job: PlanJob, layer: number): (asked: number | null) => Metres {
  const memory = new Map<number | null, Metres>()
  return (asked) => {
    const known = memory.get(asked)
    if (known !== undefined) return known
    const reach = layersLeft(job, asked, layer).reduce((most, later) => {
      const chain = job.chains.get(later)
      return chain === undefined ? most : Math.max(most, job.reach(chain, layer, layer === job.landLayer))
    }, 0)
    memory.set(asked, reach)
    return reach
  }
}

/** Where necks end: half a pitch outside the last row of this layer's grid, present or not. */
function endsOf(job: PlanJob, layer: number): Ends {
  const { field, pack } = job
  const onLand = layer === job.landLayer
  const pitch = onLand ? pack.pitch : viaGrid(pack)
  const overhang = !onLand && field.dogBone ? 0.5 : 0
  const sites = onLand ? field.lands : field.vias
  const far = (count: number, step: Metres, along: (site: Point) => Metres): Metres => {
    const nominal = ((count - 1) / 2 + overhang) * step
    const last = field.aligned ? nominal : sites.reduce((most, site) => Math.max(most, along(site)), nominal)
    return last + step / 2
  }
  return {
    right: far(field.columns, pitch.x, ({ x }) => x),
    left: 0 - far(field.columns, pitch.x, ({ x }) => 0 - x),
    top: far(field.rows, pitch.y, ({ y }) => y),
    bottom: 0 - far(field.rows, pitch.y, ({ y }) => 0 - y),
  }
}
