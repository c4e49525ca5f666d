import type { BesideNeck, Route } from '../routes/route.ts'
import type { Point } from '../units/quantity.ts'
import { barrelOn, chainRules } from './chainReach.ts'
import type { PlanJob } from './planJob.ts'
import { remembered } from './remembered.ts'
import type { ViaChain } from './viaChain.ts'

/** A via, or a land without one, on one layer of a plan: what a neck that passes it couples to. */
export interface Place extends Pick<BesideNeck, 'via' | 'pad' | 'barrel' | 'supply'> {
  readonly ball: string
  readonly at: Point
}

/** Every via of a plan that passes a layer, and on the layer of the lands the lands. */
export function placesOnLayer(job: PlanJob, routes: readonly Route[], layer: number): Place[] {
  const exits = new Map(routes.map(({ ball, exitLayer }) => [ball, exitLayer]))
  const memory = new Map<ViaChain, ViaOnLayer | null>()
  const places: Place[] = []
  for (let ball = 0; ball < job.pack.balls.length; ball += 1) {
    const own = job.pack.balls[ball]
    const at = job.field.vias[ball]
    if (own === undefined || at === undefined) continue
    const supply = job.supplies[ball] ?? null
    const chain = supply ?? signalChain(job, exits.get(own.name))
    const via = chain === null ? null : remembered(memory, chain, () => viaOnLayer(job, chain, layer))
    const place = via && { ball: own.name, at, supply: supply === null ? null : own.net, ...via }
    if (layer === job.landLayer) places.push(...withLand(job, ball, place))
    else if (place !== null) places.push(place)
  }
  return places
}

type ViaOnLayer = Pick<Place, 'via' | 'pad' | 'barrel'>

/** What a chain of vias shows on a layer; null where it does not pass it. */
function viaOnLayer(job: PlanJob, chain: ViaChain, layer: number): ViaOnLayer | null {
  const connected = layer === chain.exitLayer || layer === job.landLayer
  const rules = chainRules(job.board, chain, layer, connected)
  if (rules.length === 0) return null
  const pads = rules.flatMap(({ rule, obstacleDiameter }) =>
    rule === 'trace to pad' ? [obstacleDiameter] : [],
  )
  return {
    via: chain.name,
    pad: pads.length === 0 ? null : Math.max(...pads),
    barrel: barrelOn(chain, layer),
  }
}

function signalChain({ chains, landLayer }: PlanJob, exit: number | undefined): ViaChain | null {
  return exit === undefined || exit === landLayer ? null : (chains.get(exit) ?? null)
}

/** A land with the via in it is one place. */
function withLand({ pack, field }: PlanJob, ball: number, via: Place | null): Place[] {
  const [at, own] = [field.lands[ball], pack.balls[ball]]
  if (at === undefined || own === undefined) return []
  if (via !== null && !field.dogBone) return [{ ...via, pad: Math.max(via.pad ?? 0, pack.landDiameter) }]
  const land = { ball: own.name, at, via: null, pad: pack.landDiameter, barrel: null, supply: null }
  return via === null ? [land] : [land, via]
}
