import type { Metres } from '../../units/quantity.ts'
import type { ClearanceFault } from '../escape.ts'
import { toGrid } from './gridUnits.ts'

/** What one rule asks between the edges of two shapes. */
export interface Limit {
  readonly rule: ClearanceFault['rule']
  readonly needed: Metres
  /** Steps of the grid that must lie between the edges: what is needed, less the comparison tolerance. */
  readonly least: number
}

/** Between copper and what must not short it or cut it: however large the tolerance, the two do not touch. */
export function copperLimit(rule: Limit['rule'], needed: Metres, tolerance: Metres): Limit {
  return { rule, needed, least: Math.max(1, toGrid(needed) - toGrid(tolerance)) }
}

/** Between a trace and the edge of an area: within the tolerance it may reach into the area. */
export function areaLimit(rule: Limit['rule'], needed: Metres, tolerance: Metres): Limit {
  return { rule, needed, least: toGrid(needed) - toGrid(tolerance) }
}

export function larger(one: Limit, other: Limit): Limit {
  return other.needed > one.needed ? other : one
}

export function smaller(one: Limit, other: Limit): Limit {
  return other.needed < one.needed ? other : one
}
