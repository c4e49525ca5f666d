import { hypotenuse } from '../numerics/hypotenuse.ts'
import { pathLength } from '../routes/pathLength.ts'
import type { NeckStretch, Route } from '../routes/route.ts'
import { viaTravel } from '../routes/viaTravel.ts'
import type { ViaTravel } from '../routes/viaTravel.ts'
import type { Board } from '../board/board.ts'
import type { Metres } from '../units/quantity.ts'
import type { PlanJob } from './planJob.ts'
import type { LaidTrace } from './routing/laidTrace.ts'
import type { Candidate } from './routing/waiting.ts'
import type { ViaChain } from './viaChain.ts'

/** The route of one ball whose trace lies. The dog-bone is taken as the straight line from land to via. */
export function plannedRoute(job: PlanJob, candidate: Candidate, trace: LaidTrace, exitLayer: number): Route {
  const chain = exitLayer === job.landLayer ? null : (job.chains.get(exitLayer) ?? null)
  const travel = chain === null ? { depth: 0, stub: 0 } : chainTravel(job.board, chain)
  const dogBoneLength = chain === null ? 0 : dogBone(job, candidate.ball)
  const neckLength = dogBoneLength + pathLength(trace.path)
  const paired = candidate.netClass.structure === 'pair'
  return {
    net: candidate.net,
    package: job.pack.name,
    ball: candidate.name,
    exitLayer,
    via: chain?.name ?? null,
    path: trace.path,
    neckLength,
    dogBoneLength,
    width: trace.width,
    gap: trace.mate?.gap ?? null,
    viaDepth: travel.depth,
    stubLength: travel.stub,
    stretches: stretchesOf(trace),
    uncoupledLength: paired ? neckLength - (trace.mate?.coupledLength ?? 0) : null,
    leaves: trace.leaves,
    ring: candidate.ring,
  }
}

/** What stands beside them is known when every net has its path: `besideNecks`. */
function stretchesOf({ path, mate }: LaidTrace): NeckStretch[] {
  const coupledLength = mate?.coupledLength ?? 0
  const stretches = [
    { coupled: false, length: pathLength(path) - coupledLength, beside: [] },
    { coupled: true, length: coupledLength, beside: [] },
  ]
  return stretches.filter(({ length }) => length > SHORTEST_STRETCH)
}

/** Less is left over by rounding. */
const SHORTEST_STRETCH: Metres = 1e-9

/** Depths of the vias of a chain add up; only the last one can hang beyond the exit layer. */
function chainTravel(board: Board, chain: ViaChain): ViaTravel {
  let travel: ViaTravel = { depth: 0, stub: 0 }
  for (const { via, from, to } of chain.pieces) {
    const piece = viaTravel(board.stackup, via, from, to)
    travel = { depth: travel.depth + piece.depth, stub: piece.stub }
  }
  return travel
}

function dogBone(job: PlanJob, ball: number): Metres {
  const land = job.field.lands[ball]
  const via = job.field.vias[ball]
  return land === undefined || via === undefined ? 0 : hypotenuse(via.x - land.x, via.y - land.y)
}
