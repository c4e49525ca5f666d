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
  const { pack, field, landLayer } = job
  const exits = new Map(routes.map(({ ball, exitLayer }) => [ball, exitLayer]))
  return pack.balls.flatMap(({ name, net }, ball): Place[] => {
    const [land, at] = [field.lands[ball], field.vias[ball]]
    if (land === undefined || at === undefined) return []
    const supply = job.supplies[ball] ?? null
    const exit = supply?.exitLayer ?? exits.get(name)
    const chain = supply ?? (exit === undefined || exit === landLayer ? null : (job.chains.get(exit) ?? null))
    const joins = supply === null ? null : net
    const via = chain === null ? null : viaPlace(job, { ball: name, at, supply: joins }, chain, layer)
    if (layer !== landLayer) return via === null ? [] : [via]
    const bare: Place = {
      ball: name,
      at: land,
      via: null,
      pad: pack.landDiameter,
      barrel: null,
      supply: null,
    }
    if (via === null) return [bare]
    return field.dogBone ? [bare, via] : [{ ...via, pad: Math.max(via.pad ?? 0, pack.landDiameter) }]
  })
}

function viaPlace(
  job: PlanJob,
  about: Pick<Place, 'ball' | 'at' | 'supply'>,
  chain: ViaChain,
  layer: number,
): Place | null {
  const connected = layer === chain.exitLayer || layer === job.landLayer
  const rules = chainRules(job.board, chain, layer, connected)
  if (rules.length === 0) return null
  const pads = rules.flatMap(({ rule, obstacleDiameter }) =>
    rule === 'trace to pad' ? [obstacleDiameter] : [],
  )
  return {
    ...about,
    via: chain.name,
    pad: pads.length === 0 ? null : Math.max(...pads),
    barrel: barrelOn(chain, layer),
  }
}
