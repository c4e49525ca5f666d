import type { Board } from '../board/board.ts'
import type { Package } from '../board/packages.ts'
import type { Route } from '../routes/route.ts'
import type { EscapePlan, SupplyVia, UnescapedBall, ViaTechnology } from './escape.ts'
import type { BallState, BallStates } from './layerGround.ts'
import { layerPlans } from './layerPlans.ts'
import { planAssumptions } from './planAssumptions.ts'
import { layerName, mayLeaveOn, planJob } from './planJob.ts'
import type { PlanJob } from './planJob.ts'
import { planLayer } from './planLayer.ts'
import type { LayerResult } from './planLayer.ts'
import { plannedRoute } from './plannedRoute.ts'
import type { Candidate, Unit } from './runner.ts'
import { goesThrough } from './viaChain.ts'
import type { ViaChain } from './viaChain.ts'
import { whyNot } from './whyNot.ts'

export const RING_METHOD =
  'straight channels, outer rings first: every net leaves through the side it is nearest to, straight along its own row or column or by a channel beside it, and rearranges the others there where that makes room'

/**
 * An exit layer for every signal ball, layer by layer from the package's side, outer rings first.
 *
 * Model. A net crosses every ring outside its own, through one gap of each; the gaps it crosses lie one
 * behind the other, so its trace runs straight from beside its via to half a pitch outside the last row.
 * A gap is as wide as the places on both sides of it leave it, all the way out: vias of every net that stand there
 * count, missing balls and nets that left above without a via do not, and where whole rows or columns
 * hold nothing the gap spans them. What is clear for the deepest trace is charged to all traces of a
 * gap, with the width and gap of each. The diagonal between two places bounds nothing here: it is longer
 * than either straight gap and crossed by no more traces.
 * Pairs leave on one layer; side by side where their gap lets them, and parted only on the last layer they may use.
 *
 * Not modelled: traces that change channel on the way, and dog-bones that turn out of each other's way.
 * Both can only help, so a plan that is given can be drawn as it stands.
 */
export function planRings(board: Board, pack: Package, technology: ViaTechnology): EscapePlan {
  const job = planJob(board, pack, technology)
  const progress = new Progress(job)
  for (const layer of job.signalLayers) progress.fill(layer)
  const routes = progress.routesInOrder()
  return {
    package: pack.name,
    technology,
    method: [RING_METHOD, ...holesNote(job)].join('; '),
    layers: layerPlans(job, routes),
    routes,
    unescaped: progress.unescaped(),
    supplies: suppliesOf(job),
    assumed: planAssumptions(job),
  }
}

function suppliesOf(job: PlanJob): SupplyVia[] {
  return job.pack.balls.flatMap((ball, index) => {
    const chain = job.supplies[index] ?? null
    return chain === null ? [] : [{ ball: ball.name, via: chain.name, endLayer: chain.exitLayer }]
  })
}

/** Says where the technology of the plan is not to be had. */
function holesNote(job: PlanJob): string[] {
  const inner = job.signalLayers.filter((layer) => layer !== job.landLayer)
  const touching = [...new Set([...job.touching.values()].map(({ name }) => name))]
  const unreached = inner
    .filter((layer) => !job.chains.has(layer) && !job.touching.has(layer))
    .map((layer) => layerName(job, layer))
  const drilledThrough = inner.filter((layer) => {
    const chain = job.chains.get(layer)
    return job.technology === 'blind' && chain !== undefined && goesThrough(chain)
  })
  return [
    ...(touching.length > 0 ? [`left out because their pads would touch: ${touching.join(', ')}`] : []),
    ...(unreached.length > 0 ? [`no described via reaches ${unreached.join(', ')}`] : []),
    ...(drilledThrough.length > 0
      ? [
          `no blind via ends on ${drilledThrough.map((layer) => layerName(job, layer)).join(', ')}: through vias go there`,
        ]
      : []),
  ]
}

interface Exit {
  readonly layer: number
  readonly chain: ViaChain | null
  readonly route: Route
}

class Progress {
  private readonly exits = new Map<number, Exit>()
  private readonly results = new Map<number, LayerResult>()
  private readonly job: PlanJob

  constructor(job: PlanJob) {
    this.job = job
  }

  fill(layer: number): void {
    const { job } = this
    const waiting = job.units.flatMap((unit): Unit[] => {
      const members = unit.members.filter(({ ball }) => !this.exits.has(ball))
      return members.length > 0 && mayLeaveOn(job, unit.asked, layer) ? [{ ...unit, members }] : []
    })
    if (waiting.length === 0) return
    const result = planLayer(job, layer, waiting, this.statesBefore(layer))
    this.results.set(layer, result)
    const chain = layer === job.landLayer ? null : (job.chains.get(layer) ?? null)
    for (const candidate of waiting.flatMap(({ members }) => members)) {
      const seat = result.seating.seats.get(candidate.ball)
      const path = result.paths.get(candidate.ball)
      if (seat === undefined || path === undefined) continue
      const route = plannedRoute(job, candidate, seat, layer, path)
      this.exits.set(candidate.ball, { layer, chain, route })
    }
  }

  /** By layer from the package's side, then in the order of the package. */
  routesInOrder(): Route[] {
    const { signalLayers } = this.job
    return [...this.exits]
      .toSorted(([a, one], [b, other]) =>
        one.layer === other.layer
          ? a - b
          : signalLayers.indexOf(one.layer) - signalLayers.indexOf(other.layer),
      )
      .map(([, { route }]) => route)
  }

  unescaped(): UnescapedBall[] {
    const stuck = this.job.units.flatMap((unit) =>
      unit.members.filter(({ ball }) => !this.exits.has(ball)).map((candidate) => ({ unit, candidate })),
    )
    return stuck
      .toSorted((a, b) => a.candidate.ball - b.candidate.ball)
      .map(({ unit, candidate }) => this.refusal(unit, candidate))
  }

  private refusal(unit: Unit, candidate: Candidate): UnescapedBall {
    const { name: ball, net, ring } = candidate
    return { ball, net, ring, reason: whyNot(this.job, unit, candidate, this.results) }
  }

  private statesBefore(layer: number): BallStates {
    const states: (BallState | undefined)[] = this.job.pack.balls.map(() => undefined)
    for (const { members, asked } of this.job.units) {
      const waits: BallState = { kind: mayLeaveOn(this.job, asked, layer) ? 'tries' : 'stays', asked }
      for (const { ball } of members) {
        const exit = this.exits.get(ball)
        states[ball] = exit === undefined ? waits : { kind: 'gone', chain: exit.chain }
      }
    }
    return states
  }
}
