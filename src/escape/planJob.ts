import type { Board } from '../board/board.ts'
import type { NetClass } from '../board/nets.ts'
import type { Package } from '../board/packages.ts'
import type { Metres } from '../units/quantity.ts'
import { boneWidths } from './boneWidths.ts'
import { candidatesOf, unitsOf } from './candidates.ts'
import { chainReach } from './chainReach.ts'
import { landRules, reachOf } from './clearanceRules.ts'
import type { ViaTechnology } from './escape.ts'
import { fieldOf } from './field.ts'
import type { DogBoneDirection, Field } from './field.ts'
import { landPad, nearestPlaces, standingPad } from './overlap.ts'
import type { NearestPlaces } from './overlap.ts'
import type { Candidate, Unit } from './routing/waiting.ts'
import { supplyVias } from './supplyVias.ts'
import { signalLayersFrom } from './unitChannel.ts'
import { landLayerOf, viaChains } from './viaChain.ts'
import type { ViaChain } from './viaChain.ts'

/** Everything that stays the same while one package is planned with one technology. */
export interface PlanJob {
  readonly board: Board
  readonly pack: Package
  readonly technology: ViaTechnology
  readonly field: Field
  readonly candidates: readonly Candidate[]
  readonly units: readonly Unit[]
  /** Class of each signal ball's net, by index of the ball. */
  readonly classOf: readonly (NetClass | undefined)[]
  readonly landLayer: number
  /** Layers that carry signals, in the order in which they are filled: from the package's side unless the user says otherwise. */
  readonly signalLayers: readonly number[]
  /** Holes to every layer that they reach, but for those whose pads would touch each other or the lands. */
  readonly chains: ReadonlyMap<number, ViaChain>
  /** Chains left out for that reason. */
  readonly touching: ReadonlyMap<number, ViaChain>
  readonly nearest: NearestPlaces
  readonly supplies: readonly (ViaChain | null)[]
  readonly landReach: Metres
  /** Of the copper from a ball's land to its via: `boneWidths`. */
  boneWidth(ball: number): Metres
  /** `chainReach`, remembered. */
  reach(chain: ViaChain, layer: number, connected: boolean): Metres
  /** Gap that the match groups of two balls are to keep; 0 where nothing is said of them. */
  apart(one: number, other: number): Metres
  readonly largestApart: Metres
  /** True where nets planned first are tried on the last layer first. */
  readonly prefersDeep: boolean
  /** True where layers may be filled a second time. */
  readonly refills: boolean
}

export function planJob(
  board: Board,
  pack: Package,
  technology: ViaTechnology,
  direction: DogBoneDirection = 'outwards',
): PlanJob {
  const field = fieldOf(pack, direction)
  const candidates = candidatesOf(board, pack)
  const units = unitsOf(board, candidates)
  const prefersDeep = pack.escape.priorityLayers === 'deep' && candidates.some(({ rank }) => rank < Infinity)
  const nearest = nearestPlaces(field)
  const described = [...viaChains(board, pack, technology)]
  const touches = ([, chain]: [number, ViaChain]): boolean =>
    standingPad(chain) >= nearest.vias || (landPad(chain) + pack.landDiameter) / 2 >= nearest.viaToLand
  const chains = new Map(described.filter((entry) => !touches(entry)))
  const classOf = classesByBall(pack, candidates)
  const supplies = supplyVias(board, pack, technology, chains)
  const widthOf = boneWidths(board, pack, chains)
  return {
    board,
    pack,
    technology,
    field,
    candidates,
    units,
    classOf,
    landLayer: landLayerOf(board, pack),
    signalLayers: pack.escape.layerOrder.length > 0 ? pack.escape.layerOrder : signalLayersFrom(board, pack),
    chains,
    touching: new Map(described.filter(touches)),
    nearest,
    supplies,
    landReach: reachOf(landRules(pack, board.fabrication)),
    boneWidth: (ball) => widthOf(classOf[ball], supplies[ball] ?? null),
    reach: rememberedReach(board),
    ...groupsApart(pack, candidates),
    prefersDeep,
    refills: prefersDeep || units.some(({ members }) => members.length === 2),
  }
}

function classesByBall(pack: Package, candidates: readonly Candidate[]): (NetClass | undefined)[] {
  const classes: (NetClass | undefined)[] = pack.balls.map(() => undefined)
  for (const { ball, netClass } of candidates) classes[ball] = netClass
  return classes
}

function groupsApart(
  pack: Package,
  candidates: readonly Candidate[],
): Pick<PlanJob, 'apart' | 'largestApart'> {
  const { apart } = pack.escape
  const groupOf = new Map(
    candidates.flatMap(({ ball, group }) => (group === null ? [] : [[ball, group] as const])),
  )
  const gaps = new Map(
    apart.flatMap(({ groups: [a, b], gap }) => [[bothOf(a, b), gap] as const, [bothOf(b, a), gap] as const]),
  )
  return {
    largestApart: apart.reduce((most, { gap }) => Math.max(most, gap), 0),
    apart: (one, other) => {
      if (gaps.size === 0) return 0
      const [own, others] = [groupOf.get(one), groupOf.get(other)]
      return own === undefined || others === undefined ? 0 : (gaps.get(bothOf(own, others)) ?? 0)
    },
  }
}

/** Key of two names that no other two share, whatever signs the names hold. */
function bothOf(one: string, other: string): string {
  return JSON.stringify([one, other])
}

/** Each chain is asked for once a ball, so its figures are kept: by layer, without and with a trace that joins. */
function rememberedReach(board: Board): PlanJob['reach'] {
  const memory = new Map<ViaChain, (Metres | undefined)[]>()
  return (chain, layer, connected) => {
    let known = memory.get(chain)
    if (known === undefined) {
      known = []
      memory.set(chain, known)
    }
    const place = 2 * layer + (connected ? 1 : 0)
    return (known[place] ??= chainReach(board, chain, layer, connected))
  }
}

/** True where the lands touch each other: then every net is shorted, and none leaves. */
export function landsTouch(job: PlanJob): boolean {
  return job.pack.landDiameter >= job.nearest.lands
}

/** Where a net may leave: on the layer asked for, or on any that the lands or a chain of vias reach. */
export function mayLeaveOn(job: PlanJob, asked: number | null, layer: number): boolean {
  if (landsTouch(job)) return false
  if ((asked !== null && asked !== layer) || !job.signalLayers.includes(layer)) return false
  return layer === job.landLayer || job.chains.has(layer)
}

/** Layers on which a net may leave, from the package's side. */
export function layersFor(job: PlanJob, asked: number | null): number[] {
  return job.signalLayers.filter((layer) => mayLeaveOn(job, asked, layer))
}

/** Layers but for this one on which a net that is inside while `layer` is filled may leave yet. */
export function layersLeft(job: PlanJob, asked: number | null, layer: number): number[] {
  // Layers are filled again after nets that are tried on the last one first, and for pairs that part.
  const left = job.refills
    ? job.signalLayers.filter((each) => each !== layer)
    : job.signalLayers.slice(job.signalLayers.indexOf(layer) + 1)
  return left.filter((each) => mayLeaveOn(job, asked, each))
}

/** Name of a copper layer, for print. */
export function layerName(job: PlanJob, layer: number): string {
  return job.board.stackup.copper[layer - 1]?.name ?? `layer ${layer}`
}
