import { pathLength } from '../routes/pathLength.ts'
import type { Route } from '../routes/route.ts'
import { viaTravel } from '../routes/viaTravel.ts'
import type { ViaTravel } from '../routes/viaTravel.ts'
import type { Board } from '../board/board.ts'
import type { Metres, Point } from '../units/quantity.ts'
import type { PlanJob } from './planJob.ts'
import type { Candidate } from './runner.ts'
import { widthOf } from './seating.ts'
import type { Seat } from './seating.ts'
import type { ViaChain } from './viaChain.ts'

/** The route of one seated ball. The dog-bone is taken as the straight line from land to via. */
export function plannedRoute(
  job: PlanJob,
  candidate: Candidate,
  seat: Seat,
  exitLayer: number,
  path: readonly Point[],
): Route {
  const chain = exitLayer === job.landLayer ? null : (job.chains.get(exitLayer) ?? null)
  const travel = chain === null ? { depth: 0, stub: 0 } : chainTravel(job.board, chain)
  const dogBoneLength = chain === null ? 0 : dogBone(job, candidate.ball)
  return {
    net: candidate.net,
    package: job.pack.name,
    ball: candidate.name,
    exitLayer,
    via: chain?.name ?? null,
    path,
    neckLength: dogBoneLength + pathLength(path),
    dogBoneLength,
    width: widthOf(seat),
    gap: seat.kind === 'lane' ? (seat.user.mate?.gap ?? null) : null,
    viaDepth: travel.depth,
    stubLength: travel.stub,
    ring: candidate.ring,
    origin: 'planned',
  }
}

/** Depths of the vias of a chain add up; only the last one can hang beyond the exit layer. */
export function chainTravel(board: Board, chain: ViaChain): ViaTravel {
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
  return land === undefined || via === undefined ? 0 : Math.hypot(via.x - land.x, via.y - land.y)
}
