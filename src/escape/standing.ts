import type { Route } from '../routes/route.ts'
import { chainRules } from './chainReach.ts'
import { landRules, reachOf } from './clearanceRules.ts'
import type { ClearanceRule } from './clearanceRules.ts'
import type { Standing } from './escape.ts'
import type { PlanJob } from './planJob.ts'
import { remembered } from './remembered.ts'
import type { ViaChain } from './viaChain.ts'

/** Lands, via pads and bare holes on one layer of a finished plan, in the order of the package. */
export function standingOn(job: PlanJob, routes: readonly Route[], layer: number): Standing[] {
  const exits = new Map(routes.map((route) => [route.ball, route.exitLayer]))
  const land = discOf('land', landRules(job.pack, job.board.fabrication))
  const discUnder = rememberedDiscs(job, layer)
  return job.pack.balls.flatMap(({ name: ball }, index): Standing[] => {
    const [landAt, viaAt] = [job.field.lands[index], job.field.vias[index]]
    if (landAt === undefined || viaAt === undefined) return []
    const disc = discUnder(job.supplies[index] ?? null, exits.get(ball))
    const vias = disc === null ? [] : [{ ball, at: viaAt, ...disc }]
    return layer === job.landLayer ? [{ ball, at: landAt, ...land }, ...vias] : vias
  })
}

/** What stands on a layer under a ball, by the chain that feeds it, or else by the layer that its net leaves on. */
function rememberedDiscs(
  job: PlanJob,
  layer: number,
): (supply: ViaChain | null, exit: number | undefined) => Disc | null {
  const ofSupply = new Map<ViaChain, Disc | null>()
  const ofSignal = new Map<number, Disc | null>()
  return (supply, exit) => {
    if (supply !== null)
      return remembered(ofSupply, supply, () => viaOf(job, supply, layer, supply.exitLayer === layer))
    const chain = exit === undefined || exit === job.landLayer ? undefined : job.chains.get(exit)
    if (exit === undefined || chain === undefined) return null
    return remembered(ofSignal, exit, () => viaOf(job, chain, layer, exit === layer))
  }
}

type Disc = Pick<Standing, 'kind' | 'diameter' | 'reach'>

/** What a chain of vias shows on a layer; null where it does not pass it. */
function viaOf(job: PlanJob, chain: ViaChain, layer: number, connected: boolean): Disc | null {
  const rules = chainRules(job.board, chain, layer, connected || layer === job.landLayer)
  if (rules.length === 0) return null
  return discOf(rules.some(({ rule }) => rule === 'trace to pad') ? 'via pad' : 'hole', rules)
}

function discOf(kind: Standing['kind'], rules: readonly ClearanceRule[]): Disc {
  const copper = rules.filter(({ rule }) => rule === (kind === 'hole' ? 'drill to copper' : 'trace to pad'))
  const diameter = copper.reduce((most, { obstacleDiameter }) => Math.max(most, obstacleDiameter), 0)
  return { kind, diameter, reach: reachOf(rules) }
}
