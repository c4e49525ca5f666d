import { groupBy } from '../numerics/groupBy.ts'
import type { Route } from '../routes/route.ts'
import { mainClassOf } from './candidates.ts'
import type { LayerBound, LayerPlan } from './escape.ts'
import type { PlanJob } from './planJob.ts'
import { standingOn } from './standing.ts'
import { usualTraces } from './usualTraces.ts'
import { spans } from './viaChain.ts'
import type { ViaChain } from './viaChain.ts'

/** What each signal layer does in a finished plan, from the package's side. */
export function layerPlans(
  job: PlanJob,
  routes: readonly Route[],
  bounds: ReadonlyMap<number, LayerBound>,
): LayerPlan[] {
  const byLayer = groupBy(routes, ({ exitLayer }) => exitLayer)
  const left = new Map<number, number>()
  for (const { ring } of job.candidates) left.set(ring, (left.get(ring) ?? 0) + 1)
  const holes = holesOf(job, routes)
  const netClass = mainClassOf(job.board, job.candidates)
  return job.signalLayers.map((layer): LayerPlan => {
    const own = byLayer.get(layer) ?? []
    const before = new Map(left)
    for (const { ring } of own) left.set(ring, (left.get(ring) ?? 0) - 1)
    const freed = [...left].filter(([ring, count]) => count === 0 && before.get(ring) !== 0)
    return {
      layer,
      escaped: own.length,
      ringsFreed: freed.map(([ring]) => ring).toSorted((a, b) => a - b),
      obstacles: holes.filter((chain) => chain.pieces.some(({ via }) => spans(via, layer))).length,
      tracesPerChannel: usualTraces(job.board, job.pack, job.chains, layer, netClass) ?? 0,
      longestNeck:
        own.length === 0 ? null : own.reduce((most, { neckLength }) => Math.max(most, neckLength), 0),
      standing: standingOn(job, routes, layer),
      bound: bounds.get(layer) ?? null,
    }
  })
}

/** Every chain of vias that the plan drills, of every net. */
function holesOf(job: PlanJob, routes: readonly Route[]): ViaChain[] {
  const signals = routes.map(({ exitLayer }) =>
    exitLayer === job.landLayer ? undefined : job.chains.get(exitLayer),
  )
  return [...job.supplies, ...signals].filter((chain) => chain !== null && chain !== undefined)
}
