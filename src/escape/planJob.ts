import type { Board } from '../board/board.ts'
import type { Package } from '../board/packages.ts'
import type { Metres } from '../units/quantity.ts'
import { candidatesOf, unitsOf } from './candidates.ts'
import { chainReach } from './chainReach.ts'
import { landRules, reachOf } from './clearanceRules.ts'
import type { ViaTechnology } from './escape.ts'
import { fieldOf } from './field.ts'
import type { Field } from './field.ts'
import { nearestPlaces, standingPad } from './overlap.ts'
import type { NearestPlaces } from './overlap.ts'
import type { Candidate, Unit } from './runner.ts'
import { sidesOf, standsOf } from './side.ts'
import type { Side, Stand } from './side.ts'
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
  readonly sides: readonly Side[]
  readonly stands: readonly (readonly Stand[])[]
  readonly candidates: readonly Candidate[]
  readonly units: readonly Unit[]
  readonly landLayer: number
  /** Layers that carry signals, from the package's side. */
  readonly signalLayers: readonly number[]
  /** Holes to every layer that they reach, but for those whose pads would touch each other. */
  readonly chains: ReadonlyMap<number, ViaChain>
  /** Chains left out for that reason. */
  readonly touching: ReadonlyMap<number, ViaChain>
  readonly nearest: NearestPlaces
  readonly supplies: readonly (ViaChain | null)[]
  readonly landReach: Metres
  /** `chainReach`, remembered. */
  reach(chain: ViaChain, layer: number, connected: boolean): Metres
}

export function planJob(board: Board, pack: Package, technology: ViaTechnology): PlanJob {
  const field = fieldOf(pack)
  const sides = sidesOf(field)
  const candidates = candidatesOf(board, pack)
  const nearest = nearestPlaces(field)
  const described = [...viaChains(board, pack, technology)]
  const touches = ([, chain]: [number, ViaChain]): boolean => standingPad(chain) >= nearest.vias
  const chains = new Map(described.filter((entry) => !touches(entry)))
  return {
    board,
    pack,
    technology,
    field,
    sides,
    stands: pack.balls.map((_, ball) => standsOf(field, sides, ball)),
    candidates,
    units: unitsOf(board, candidates),
    landLayer: landLayerOf(board, pack),
    signalLayers: signalLayersFrom(board, pack),
    chains,
    touching: new Map(described.filter(touches)),
    nearest,
    supplies: supplyVias(board, pack, technology, chains),
    landReach: reachOf(landRules(pack, board.fabrication)),
    reach: rememberedReach(board),
  }
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
  if (asked !== null && asked !== layer) return false
  return layer === job.landLayer || job.chains.has(layer)
}

/** Layers on which a net may leave, from the package's side. */
export function layersFor(job: PlanJob, asked: number | null): number[] {
  return job.signalLayers.filter((layer) => mayLeaveOn(job, asked, layer))
}

/** Layers below `layer` on which a net may leave. */
export function layersBelow(job: PlanJob, asked: number | null, layer: number): number[] {
  const deeper = job.signalLayers.slice(job.signalLayers.indexOf(layer) + 1)
  return deeper.filter((each) => mayLeaveOn(job, asked, each))
}

/** Name of a copper layer, for print. */
export function layerName(job: PlanJob, layer: number): string {
  return job.board.stackup.copper[layer - 1]?.name ?? `layer ${layer}`
}
