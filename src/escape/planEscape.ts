import type { Board } from '../board/board.ts'
import type { Package } from '../board/packages.ts'
import type { Route } from '../routes/route.ts'
import { besideNecks } from './besideNecks.ts'
import { checkPlan } from './clearance/checkPlan.ts'
import type {
  ClearanceCheck,
  DogBone,
  EscapePlan,
  LayerBound,
  SupplyVia,
  UnescapedBall,
  ViaTechnology,
} from './escape.ts'
import { DOG_BONE_DIRECTIONS } from './field.ts'
import type { DogBoneDirection } from './field.ts'
import { holesNote } from './holesNote.ts'
import { layerBound, leastLayers, leastReach } from './layerBound.ts'
import { layerPlans } from './layerPlans.ts'
import { planAssumptions } from './planAssumptions.ts'
import { mayLeaveOn, planJob } from './planJob.ts'
import type { PlanJob } from './planJob.ts'
import { plannedRoute } from './plannedRoute.ts'
import type { BallState, BallStates } from './routing/layerGround.ts'
import type { LaidTrace } from './routing/laidTrace.ts'
import { planLayer } from './routing/planLayer.ts'
import type { Candidate, Unit } from './routing/waiting.ts'
import { whyNot } from './whyNot.ts'

const METHOD =
  'lanes at exact clearances between the rows and columns of what stands on each layer, and a maximum flow of paths along them, no two through one place'

/**
 * A way out for every signal ball: exit layer, centre line and length, layer after layer.
 *
 * On each layer lanes are laid between the rows and columns of lands or vias, and through the places of missing
 * ones; paths along them share no crossing, and are as many as such paths can be (`DisjointPaths`), nets asked for
 * first before all others and then outer rings before inner ones. Vias of every net that stand on the layer are in the
 * way. Pairs run side by side where a lane takes both and that is half of their way or more. Else they leave in two
 * lanes of one layer; those that find no way out together are let out one by one, after all layers are filled.
 *
 * The paths of one layer are as many as the lattice has; that other layouts, other via places or another choice of
 * nets on the layers before would not let out more is not claimed: `LayerBound.atMost` says how far that could go.
 * Dog-bones lead away from the middle of the package. Where nets stay inside that way, all of them in one
 * direction are tried as well, and the plan that lets out most is taken.
 *
 * The finished plan is checked by `checkPlan`, which knows nothing of lanes; what fails is taken out and told.
 */
export function planEscape(board: Board, pack: Package, technology: ViaTechnology): EscapePlan {
  const first = planWith(board, pack, technology, 'outwards')
  if (
    first.unescaped.length === 0 ||
    first.dogBones.length === 0 ||
    pack.balls.length > DIRECTIONS_TRIED_UP_TO
  )
    return first
  return DOG_BONE_DIRECTIONS.slice(1).reduce((best, direction) => {
    const plan = planWith(board, pack, technology, direction)
    return plan.unescaped.length < best.unescaped.length ? plan : best
  }, first)
}

/** Balls of a package for which other directions of the dog-bones are tried where nets stay inside: each costs a plan. */
const DIRECTIONS_TRIED_UP_TO = 1000

function planWith(
  board: Board,
  pack: Package,
  technology: ViaTechnology,
  direction: DogBoneDirection,
): EscapePlan {
  const job = planJob(board, pack, technology, direction)
  const progress = new Progress(job)
  if (job.prefersDeep)
    for (const layer of job.signalLayers.toReversed()) progress.fill(layer, ({ rank }) => rank < Infinity)
  for (const layer of job.signalLayers) progress.fill(layer, () => true)
  // What stayed inside may still leave by pairs that part: on the first layer that has room, for short barrels.
  for (const layer of job.signalLayers) progress.fill(layer, () => true, 'parting pairs')
  return progress.plan()
}

interface Exit {
  readonly layer: number
  readonly trace: LaidTrace
  readonly unit: Unit
  readonly candidate: Candidate
}

class Progress {
  readonly #job: PlanJob
  readonly #exits = new Map<number, Exit>()
  readonly #bounds = new Map<number, LayerBound>()
  /** By layer, then ball: the places that all ways out of a refused ball have in common. */
  readonly #refused = new Map<number, Map<number, number>>()

  constructor(job: PlanJob) {
    this.#job = job
  }

  fill(layer: number, wanted: (unit: Unit) => boolean, parting: 'parting pairs' | null = null): void {
    const job = this.#job
    if (parting !== null && !this.#hasPairInside()) return
    const inside = job.units.flatMap((unit): Unit[] => {
      const members = unit.members.filter(({ ball }) => !this.#exits.has(ball))
      return members.length > 0 && mayLeaveOn(job, unit.asked, layer) ? [{ ...unit, members }] : []
    })
    const waiting = inside.filter(wanted)
    if (waiting.length === 0) return
    const states = this.#statesBefore(waiting)
    const before = [...this.#exits.values()].filter((exit) => exit.layer === layer).map(({ trace }) => trace)
    const { traces, refused } = planLayer(job, layer, waiting, states, before, parting !== null)
    for (const unit of waiting) {
      for (const candidate of unit.members) {
        const trace = traces.get(candidate.ball)
        if (trace !== undefined) this.#exits.set(candidate.ball, { layer, trace, unit, candidate })
      }
    }
    this.#noteRefused(layer, refused)
    this.#noteBound(layer, inside, traces.size, states)
  }

  #noteRefused(layer: number, refused: ReadonlyMap<number, number>): void {
    const known = this.#refused.get(layer) ?? new Map<number, number>()
    for (const [ball, places] of refused) known.set(ball, places)
    this.#refused.set(layer, known)
  }

  /** What is let out when the layer is filled again was among those that were inside at first. */
  #noteBound(layer: number, inside: readonly Unit[], escaped: number, states: BallStates): void {
    const earlier = this.#bounds.get(layer)
    const bound =
      earlier === undefined
        ? layerBound(
            this.#job,
            layer,
            inside.flatMap(({ members }) => members),
            escaped,
            leastReach(this.#job, layer, states),
          )
        : { ...earlier, escaped: earlier.escaped + escaped }
    if (bound !== null) this.#bounds.set(layer, bound)
  }

  plan(): EscapePlan {
    const job = this.#job
    const supplies = suppliesOf(job)
    const withdrawn = new Map<string, string>()
    let drawn = this.#drawn(supplies)
    const first = checkPlan(job.board, job.pack, drawn)
    for (let check = first; this.#withdraw(check, withdrawn);) {
      drawn = this.#drawn(supplies)
      check = checkPlan(job.board, job.pack, drawn)
    }
    const { dogBones } = drawn
    const routes = besideNecks(job, drawn.routes)
    return {
      package: job.pack.name,
      technology: job.technology,
      method: [METHOD, ...holesNote(job)].join('; '),
      layers: layerPlans(job, routes, this.#bounds),
      routes,
      unescaped: this.#unescaped(withdrawn),
      supplies,
      dogBones,
      atLeastLayers: leastLayers(job),
      check: first,
      assumed: planAssumptions(job),
    }
  }

  #drawn(supplies: readonly SupplyVia[]): {
    routes: Route[]
    supplies: readonly SupplyVia[]
    dogBones: DogBone[]
  } {
    return { routes: this.#routesInOrder(), supplies, dogBones: this.#dogBones() }
  }

  /** By layer in the order in which layers are filled, then in the order of the package. */
  #routesInOrder(): Route[] {
    const { signalLayers } = this.#job
    return [...this.#exits]
      .toSorted(([a, one], [b, other]) =>
        one.layer === other.layer
          ? a - b
          : signalLayers.indexOf(one.layer) - signalLayers.indexOf(other.layer),
      )
      .map(([, { candidate, trace, layer }]) => plannedRoute(this.#job, candidate, trace, layer))
  }

  #dogBones(): DogBone[] {
    const { pack, field, supplies, landLayer } = this.#job
    if (!field.dogBone) return []
    return pack.balls.flatMap(({ name }, ball): DogBone[] => {
      const exit = this.#exits.get(ball)
      const hasVia = (supplies[ball] ?? null) !== null || (exit !== undefined && exit.layer !== landLayer)
      const from = field.lands[ball]
      const to = field.vias[ball]
      if (!hasVia || from === undefined || to === undefined) return []
      return [{ ball: name, from, to, width: this.#job.boneWidth(ball) }]
    })
  }

  /** Takes out the nets that the check objects to and notes what it found; false where there are none. */
  #withdraw({ faults }: ClearanceCheck, told: Map<string, string>): boolean {
    const byName = new Map(this.#job.pack.balls.map(({ name }, ball) => [name, ball]))
    const before = told.size
    for (const { ball, rule, other } of faults) {
      const index = byName.get(ball) ?? -1
      if (!this.#exits.delete(index)) continue
      told.set(ball, `${rule}, ${other}`)
    }
    return told.size > before
  }

  #unescaped(withdrawn: ReadonlyMap<string, string>): UnescapedBall[] {
    const stuck = this.#job.units.flatMap((unit) =>
      unit.members.filter(({ ball }) => !this.#exits.has(ball)).map((candidate) => ({ unit, candidate })),
    )
    return stuck
      .toSorted((a, b) => a.candidate.ball - b.candidate.ball)
      .map(({ unit, candidate }) => {
        const { name: ball, net, ring } = candidate
        const fault = withdrawn.get(ball)
        const reason =
          fault === undefined
            ? whyNot(
                this.#job,
                unit,
                candidate,
                this.#bounds,
                (layer) => this.#refused.get(layer)?.get(candidate.ball) ?? null,
              )
            : `withdrawn: the clearance check of the plan found a fault (${fault}); this is a fault of the program, please report it`
        return { ball, net, ring, reason }
      })
  }

  #hasPairInside(): boolean {
    return this.#job.units.some(
      ({ members }) => members.length === 2 && members.some(({ ball }) => !this.#exits.has(ball)),
    )
  }

  #statesBefore(waiting: readonly Unit[]): BallStates {
    const job = this.#job
    const trying = new Set(waiting.flatMap(({ members }) => members.map(({ ball }) => ball)))
    const states: (BallState | undefined)[] = job.pack.balls.map(() => undefined)
    for (const { members, asked } of job.units) {
      for (const { ball } of members) {
        const exit = this.#exits.get(ball)
        states[ball] =
          exit === undefined
            ? { kind: trying.has(ball) ? 'tries' : 'stays', asked }
            : {
                kind: 'gone',
                chain: exit.layer === job.landLayer ? null : (job.chains.get(exit.layer) ?? null),
              }
      }
    }
    return states
  }
}

function suppliesOf(job: PlanJob): SupplyVia[] {
  return job.pack.balls.flatMap((ball, index) => {
    const chain = job.supplies[index] ?? null
    return chain === null ? [] : [{ ball: ball.name, via: chain.name, endLayer: chain.exitLayer }]
  })
}
