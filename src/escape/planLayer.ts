import type { NetClass } from '../board/nets.ts'
import type { Point } from '../units/quantity.ts'
import type { Ground } from './ground.ts'
import { frontOf } from './lane.ts'
import { layerGround } from './layerGround.ts'
import type { BallState, BallStates } from './layerGround.ts'
import { neckOf } from './neck.ts'
import type { Neck } from './neck.ts'
import type { PlanJob } from './planJob.ts'
import { layersBelow } from './planJob.ts'
import type { Runner, Unit } from './runner.ts'
import { Seating, widthOf } from './seating.ts'
import { pathsOf } from './tracks.ts'
import { unitChannel } from './unitChannel.ts'
import { tooNear } from './verifyPaths.ts'
import type { DrawnTrace } from './verifyPaths.ts'

export interface LayerResult {
  readonly ground: Ground
  readonly seating: Seating
  /** Centre line of every ball that leaves here. */
  readonly paths: ReadonlyMap<number, readonly Point[]>
}

/** Rounds after which whole rings are held back, so that a layer ends after at most one round a ring. */
const PATIENT_ROUNDS = 4

/**
 * Fills one layer. Balls that fail keep a via here, which may stand in the way of those that were seated
 * as if it did not: then the layer is filled again without the failed ones, until nothing changes.
 * @param states What is known of every signal ball; those that may leave here are said to try.
 */
export function planLayer(
  job: PlanJob,
  layer: number,
  waiting: readonly Unit[],
  states: BallStates,
): LayerResult {
  const necks = neckMemory(job, layer)
  let runners = waiting.flatMap((unit): Runner[] => {
    const netClass = unit.members[0]?.netClass
    return netClass === undefined ? [] : [{ unit, neck: necks(netClass) }]
  })
  for (let round = 1; ; round += 1) {
    const current = states.slice()
    const trying = new Set(runners.flatMap(({ unit }) => unit.members.map(({ ball }) => ball)))
    for (const unit of waiting) {
      for (const { ball } of unit.members) {
        if (!trying.has(ball)) current[ball] = { kind: 'stays', asked: unit.asked }
      }
    }
    const ground = layerGround(job, layer, current)
    const seating = seatAll(job, layer, ground, runners)
    const paths = pathsOf(ground, seating)
    const refused = regular(ground, runners)
      ? new Set<number>()
      : tooNear(ground, drawn(runners, seating, paths))
    const leaves = (ball: number): boolean => seating.seats.has(ball) && !refused.has(ball)
    const failed = runners.filter(({ unit }) => !unit.members.every(({ ball }) => leaves(ball)))
    if (refused.size === 0 && !standMoreInTheWay(job, layer, ground, failed))
      return { ground, seating, paths }
    const limit = round > PATIENT_ROUNDS ? Math.min(...failed.map(({ unit }) => unit.ring)) : Infinity
    runners = runners.flatMap((runner) => remaining(runner, leaves, limit))
  }
}

/**
 * True where the lanes alone keep every trace clear: balls on their grid, and dog-bone vias in the middle of
 * four lands and small enough that a trace may start from each of these.
 */
function regular(ground: Ground, runners: readonly Runner[]): boolean {
  const { field, between, pitch } = ground
  if (!field.aligned) return false
  if (between === null) return true
  const { viaPitch } = field.pack
  const widest = runners.reduce((most, { neck }) => Math.max(most, neck.width), 0)
  const reach = between.reach.reduce((most, each) => Math.max(most, each), 0)
  return (
    viaPitch.x === pitch.x && viaPitch.y === pitch.y && reach + widest / 2 <= Math.hypot(pitch.x, pitch.y) / 2
  )
}

/** Every seated trace, outer rings first. */
function drawn(
  runners: readonly Runner[],
  seating: Seating,
  paths: ReadonlyMap<number, readonly Point[]>,
): DrawnTrace[] {
  return runners.flatMap(({ unit, neck }) =>
    unit.members.flatMap(({ ball }): DrawnTrace[] => {
      const seat = seating.seats.get(ball)
      const path = paths.get(ball)
      if (seat === undefined || path === undefined) return []
      const mate = seat.kind === 'lane' ? seat.user.mate : null
      return [{ ball, path, width: widthOf(seat), traceGap: neck.traceGap, mate }]
    }),
  )
}

function seatAll(job: PlanJob, layer: number, ground: Ground, runners: readonly Runner[]): Seating {
  const clearance = Math.max(0, ...runners.map(({ neck }) => neck.width / 2 + neck.traceGap))
  const fronts = job.sides.map((side) => frontOf(ground, side, clearance))
  const seating = new Seating(ground, fronts, (ball) => job.stands[ball] ?? [])
  for (const { unit, neck } of runners) {
    const [one, other] = unit.members
    if (one === undefined) continue
    if (other === undefined) seating.seatOne(one.ball, neck)
    else if (!seating.seatPair(one.ball, other.ball, neck) && isLast(job, layer, unit)) {
      seating.seatOne(one.ball, neck)
      seating.seatOne(other.ball, neck)
    }
  }
  return seating
}

/** A pair is only parted on the last layer that it can leave on. */
function isLast(job: PlanJob, layer: number, unit: Unit): boolean {
  return layersBelow(job, unit.asked, layer).length === 0
}

/** True where a failed ball takes more room, now that it must go deeper, than was set aside for it. */
function standMoreInTheWay(job: PlanJob, layer: number, ground: Ground, failed: readonly Runner[]): boolean {
  if (failed.length === 0) return false
  const states: (BallState | undefined)[] = []
  for (const { unit } of failed) {
    for (const { ball } of unit.members) states[ball] = { kind: 'stays', asked: unit.asked }
  }
  const stricter = layerGround(job, layer, states)
  return failed.some(({ unit }) =>
    unit.members.some(
      ({ ball }) =>
        (stricter.reach[ball] ?? 0) > (ground.reach[ball] ?? 0) ||
        (stricter.between?.reach[ball] ?? 0) > (ground.between?.reach[ball] ?? 0),
    ),
  )
}

/** What is left of a runner for the next round: its seated balls, unless its ring is held back. */
function remaining(runner: Runner, leaves: (ball: number) => boolean, ringLimit: number): Runner[] {
  const members = runner.unit.members.filter(({ ball }) => leaves(ball))
  if (members.length === 0 || runner.unit.ring >= ringLimit) return []
  return members.length === runner.unit.members.length
    ? [runner]
    : [{ ...runner, unit: { ...runner.unit, members } }]
}

function neckMemory(job: PlanJob, layer: number): (netClass: NetClass) => Neck {
  const channel = unitChannel(job.board, job.pack, job.chains, layer)
  const memory = new Map<string, Neck>()
  return (netClass) => {
    const known = memory.get(netClass.name)
    if (known !== undefined) return known
    const neck = neckOf(job.board, netClass, layer, channel?.clear ?? 0)
    memory.set(netClass.name, neck)
    return neck
  }
}
