import type { Metres } from '../units/quantity.ts'
import type { Ground } from './ground.ts'
import { layersBelow } from './planJob.ts'
import type { PlanJob } from './planJob.ts'
import { viaGrid } from './unitChannel.ts'
import type { ViaChain } from './viaChain.ts'

/** What a signal ball does on the layer being planned, as far as is known. */
export type BallState =
  /** Left on an earlier layer, through this chain; null where it left from its land. */
  | { readonly kind: 'gone'; readonly chain: ViaChain | null }
  /** Tries to leave here. */
  | { readonly kind: 'tries'; readonly asked: number | null }
  /** Goes deeper, to the layer asked for or to any, or nowhere. */
  | { readonly kind: 'stays'; readonly asked: number | null }

/** By index of the ball; absent for balls that are no signals. */
export type BallStates = readonly (BallState | undefined)[]

/**
 * What stands on one layer, every net counted: vias of power and ground, of nets that left before where their
 * holes reach this far, of those that try to leave here, and of those that go deeper, with the
 * widest pad that any layer left to them would need. Nothing where a ball is missing.
 */
export function layerGround(job: PlanJob, layer: number, states: BallStates): Ground {
  return layer === job.landLayer ? landGround(job, states) : viaGround(job, layer, states)
}

function viaGround(job: PlanJob, layer: number, states: BallStates): Ground {
  const own = job.chains.get(layer)
  const stays = staying(job, layer)
  const reach = job.field.lands.map((_, ball): Metres => {
    const supply = job.supplies[ball] ?? null
    if (supply !== null) return job.reach(supply, layer, false)
    const state = states[ball]
    if (state === undefined) return 0
    if (state.kind === 'gone') return state.chain === null ? 0 : job.reach(state.chain, layer, false)
    if (state.kind === 'tries') return own === undefined ? 0 : job.reach(own, layer, true)
    return stays(state.asked)
  })
  return { ...shared(job), sites: job.field.vias, reach, between: null, pitch: viaGrid(job.pack) }
}

/** Balls that keep no via have only their land; the via of the others stands in it, or beside it as a dog-bone. */
function landGround(job: PlanJob, states: BallStates): Ground {
  const { field, landLayer, landReach } = job
  const stays = staying(job, landLayer)
  const vias = field.lands.map((_, ball): Metres => {
    const supply = job.supplies[ball] ?? null
    if (supply !== null) return job.reach(supply, landLayer, true)
    const state = states[ball]
    return state?.kind === 'stays' ? stays(state.asked) : 0
  })
  const base = { ...shared(job), sites: field.lands, pitch: job.pack.pitch }
  if (!field.dogBone) {
    return { ...base, reach: vias.map((via) => Math.max(via, landReach)), between: null }
  }
  // Beyond the outermost row there is room for a via to stand clear of the necks.
  const inside = vias.map((via, ball) => (field.rings[ball] === 1 ? 0 : via))
  return {
    ...base,
    reach: field.lands.map(() => landReach),
    between: { sites: field.vias, reach: inside },
  }
}

/** What a ball that goes deeper takes up here, by the layer asked for: the most that any layer left to it needs. */
function staying(job: PlanJob, layer: number): (asked: number | null) => Metres {
  const memory = new Map<number | null, Metres>()
  return (asked) => {
    const known = memory.get(asked)
    if (known !== undefined) return known
    const reach = layersBelow(job, asked, layer).reduce((most, later) => {
      const chain = job.chains.get(later)
      return chain === undefined ? most : Math.max(most, job.reach(chain, layer, false))
    }, 0)
    memory.set(asked, reach)
    return reach
  }
}

function shared(job: PlanJob): Pick<Ground, 'field' | 'tolerance'> {
  return { field: job.field, tolerance: job.board.analysis.comparisonTolerance }
}
