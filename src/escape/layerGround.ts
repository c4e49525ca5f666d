import type { Metres } from '../units/quantity.ts'
import type { Ground } from './ground.ts'
import type { PlanJob } from './planJob.ts'
import { viaGrid } from './unitChannel.ts'
import type { ViaChain } from './viaChain.ts'

/** What a signal ball does on the layer being planned, as far as is known. */
export type BallState =
  /** Left on an earlier layer, through this chain; null where it left from its land. */
  | { readonly kind: 'gone'; readonly chain: ViaChain | null }
  /** Tries to leave here. */
  | { readonly kind: 'tries' }
  /** Goes deeper, or nowhere. */
  | { readonly kind: 'stays'; readonly layers: readonly number[] }

/**
 * What stands on one layer, every net counted: vias of power and ground, of nets that left before where their
 * holes reach this far, of those that try to leave here, and of those that go deeper, with the
 * widest pad that any layer left to them would need. Nothing where a ball is missing.
 */
export function layerGround(job: PlanJob, layer: number, states: ReadonlyMap<number, BallState>): Ground {
  return layer === job.landLayer ? landGround(job, states) : viaGround(job, layer, states)
}

function viaGround(job: PlanJob, layer: number, states: ReadonlyMap<number, BallState>): Ground {
  const own = job.chains.get(layer)
  const reach = job.field.lands.map((_, ball): Metres => {
    const supply = job.supplies[ball] ?? null
    if (supply !== null) return job.reach(supply, layer, false)
    const state = states.get(ball)
    if (state === undefined) return 0
    if (state.kind === 'gone') return state.chain === null ? 0 : job.reach(state.chain, layer, false)
    if (state.kind === 'tries') return own === undefined ? 0 : job.reach(own, layer, true)
    return deeperReach(job, layer, state.layers)
  })
  return { ...shared(job), sites: job.field.vias, reach, between: null, pitch: viaGrid(job.pack) }
}

/** Balls that keep no via have only their land; the via of the others stands in it, or beside it as a dog-bone. */
function landGround(job: PlanJob, states: ReadonlyMap<number, BallState>): Ground {
  const { field, landLayer, landReach } = job
  const vias = field.lands.map((_, ball): Metres => {
    const supply = job.supplies[ball] ?? null
    if (supply !== null) return job.reach(supply, landLayer, true)
    const state = states.get(ball)
    return state?.kind === 'stays' ? deeperReach(job, landLayer, state.layers) : 0
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

function deeperReach(job: PlanJob, layer: number, layers: readonly number[]): Metres {
  return Math.max(
    0,
    ...layers.map((later) => {
      const chain = job.chains.get(later)
      return chain === undefined ? 0 : job.reach(chain, layer, later === layer)
    }),
  )
}

function shared(job: PlanJob): Pick<Ground, 'field' | 'tolerance'> {
  return { field: job.field, tolerance: job.board.analysis.comparisonTolerance }
}
