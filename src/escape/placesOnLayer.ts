import type { BesideNeck, Route } from '../routes/route.ts'
import type { Point } from '../units/quantity.ts'
import { barrelOn, chainRules } from './chainReach.ts'
import type { PlanJob } from './planJob.ts'
import type { ViaChain } from './viaChain.ts'

/** A via, or a land without one, on one layer of a plan: what a neck that passes it couples to. */
export interface Place extends Pick<BesideNeck, 'via' | 'pad' | 'barrel' | 'supply'> {
  readonly ball: string
  readonly at: Point
}

/** Every via of a plan that passes a layer, and on the layer of the lands the lands. */
export function placesOnLayer(job: PlanJob, routes: readonly Route[], layer: number): Place[] {
  const exits = new Map(routes.map(({ ball, exitLayer }) => [ball, exitLayer]))
  return job.pack.balls.flatMap(({ name }, ball): Place[] => {
    const via = viaUnder(job, ball, exits.get(name), layer)
    const vias = via === null ? [] : [via]
    return layer === job.landLayer ? withLand(job, ball, vias) : vias
  })
}

/** The via of a ball where it passes a layer; null without one. */
function viaUnder(job: PlanJob, ball: number, exit: number | undefined, layer: number): Place | null {
  const supply = job.supplies[ball] ?? null
  const chain = supply ?? signalChain(job, exit)
  const at = job.field.vias[ball]
  const own = job.pack.balls[ball]
  if (chain === null || at === undefined || own === undefined) return null
  const connected = layer === chain.exitLayer || layer === job.landLayer
  const rules = chainRules(job.board, chain, layer, connected)
  if (rules.length === 0) return null
  const pads = rules.flatMap(({ rule, obstacleDiameter }) =>
    rule === 'trace to pad' ? [obstacleDiameter] : [],
  )
  return {
    ball: own.name,
    at,
    supply: supply === null ? null : own.net,
    via: chain.name,
    pad: pads.length === 0 ? null : Math.max(...pads),
    barrel: barrelOn(chain, layer),
  }
}

function signalChain({ chains, landLayer }: PlanJob, exit: number | undefined): ViaChain | null {
  return exit === undefined || exit === landLayer ? null : (chains.get(exit) ?? null)
}

/** A land with the via in it is one place. */
function withLand({ pack, field }: PlanJob, ball: number, vias: readonly Place[]): Place[] {
  const [at, own] = [field.lands[ball], pack.balls[ball]]
  if (at === undefined || own === undefined) return []
  if (vias.length > 0 && !field.dogBone) {
    return vias.map((via) => ({ ...via, pad: Math.max(via.pad ?? 0, pack.landDiameter) }))
  }
  return [{ ball: own.name, at, via: null, pad: pack.landDiameter, barrel: null, supply: null }, ...vias]
}
