import type { Point } from '../units/quantity.ts'
import type { Route } from '../routes/route.ts'
import { chainRules } from './chainReach.ts'
import { landRules, reachOf } from './clearanceRules.ts'
import type { ClearanceRule } from './clearanceRules.ts'
import type { Standing } from './escape.ts'
import type { PlanJob } from './planJob.ts'
import type { ViaChain } from './viaChain.ts'

/** Lands, via pads and bare holes on one layer of a finished plan, in the order of the package. */
export function standingOn(job: PlanJob, routes: readonly Route[], layer: number): Standing[] {
  const exits = new Map(routes.map((route) => [route.ball, route.exitLayer]))
  return job.pack.balls.flatMap(({ name }, ball): Standing[] => {
    const land = job.field.lands[ball]
    const via = job.field.vias[ball]
    if (land === undefined || via === undefined) return []
    const exit = exits.get(name)
    const supply = job.supplies[ball] ?? null
    const signal = exit === undefined || exit === job.landLayer ? null : (job.chains.get(exit) ?? null)
    const chain = supply ?? signal
    const vias =
      chain === null ? [] : viaOf(job, name, via, chain, layer, (supply?.exitLayer ?? exit) === layer)
    if (layer !== job.landLayer) return vias
    return [discOf(name, land, 'land', landRules(job.pack, job.board.fabrication)), ...vias]
  })
}

function viaOf(
  job: PlanJob,
  ball: string,
  at: Point,
  chain: ViaChain,
  layer: number,
  connected: boolean,
): Standing[] {
  const rules = chainRules(job.board, chain, layer, connected || layer === job.landLayer)
  if (rules.length === 0) return []
  const padded = rules.some(({ rule }) => rule === 'trace to pad')
  return [discOf(ball, at, padded ? 'via pad' : 'hole', rules)]
}

function discOf(ball: string, at: Point, kind: Standing['kind'], rules: readonly ClearanceRule[]): Standing {
  const copper = rules.filter(({ rule }) => rule === (kind === 'hole' ? 'drill to copper' : 'trace to pad'))
  const diameter = copper.reduce((most, { obstacleDiameter }) => Math.max(most, obstacleDiameter), 0)
  return { ball, at, kind, diameter, reach: reachOf(rules) }
}
