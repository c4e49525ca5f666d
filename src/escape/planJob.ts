import type { Board } from '../board/board.ts'
import type { Package } from '../board/packages.ts'
import type { Metres } from '../units/quantity.ts'
import { candidatesOf, unitsOf } from './candidates.ts'
import { chainReach } from './chainReach.ts'
import { landRules, reachOf } from './clearanceRules.ts'
import type { ViaTechnology } from './escape.ts'
import { fieldOf } from './field.ts'
import type { Field } from './field.ts'
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
  readonly chains: ReadonlyMap<number, ViaChain>
  readonly supplies: readonly (ViaChain | null)[]
  readonly landReach: Metres
  /** `chainReach`, remembered. */
  reach(chain: ViaChain, layer: number, connected: boolean): Metres
}

export function planJob(board: Board, pack: Package, technology: ViaTechnology): PlanJob {
  const field = fieldOf(pack)
  const sides = sidesOf(field)
  const candidates = candidatesOf(board, pack)
  const chains = viaChains(board, pack, technology)
  const memory = new Map<string, Metres>()
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
    supplies: supplyVias(board, pack, technology, chains),
    landReach: reachOf(landRules(pack, board.fabrication)),
    reach: (chain, layer, connected) => {
      const key = `${chain.name}|${chain.exitLayer}|${layer}|${connected}`
      const known = memory.get(key)
      if (known !== undefined) return known
      const reach = chainReach(board, chain, layer, connected)
      memory.set(key, reach)
      return reach
    },
  }
}

/** Where a unit may leave: on the layer asked for, or on any that the lands or a chain of vias reach. */
export function mayLeaveOn(job: PlanJob, unit: Unit, layer: number): boolean {
  const asked = unit.members[0]?.exitLayer ?? null
  if (asked !== null && asked !== layer) return false
  return layer === job.landLayer || job.chains.has(layer)
}

/** Layers on which a unit may leave, from the package's side. */
export function layersFor(job: PlanJob, unit: Unit): number[] {
  return job.signalLayers.filter((layer) => mayLeaveOn(job, unit, layer))
}
