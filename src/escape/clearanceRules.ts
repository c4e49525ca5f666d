import type { Fabrication, OuterInner } from '../board/fabrication.ts'
import type { Package } from '../board/packages.ts'
import type { ViaType } from '../board/vias.ts'
import type { Metres } from '../units/quantity.ts'
import type { ChannelTest } from './escape.ts'

/** What keeps a trace away from one kind of obstacle, by one rule. */
export type ClearanceRule = Pick<ChannelTest, 'rule' | 'obstacleDiameter' | 'clearance'>

/** Which of the two figures of a rule holds on a layer. */
export function figureOn(outer: boolean, rule: OuterInner): Metres {
  return outer ? rule.outer : rule.inner
}

/** A land of the package: its copper, and the opening in the mask around it. */
export function landRules(pack: Package, fabrication: Fabrication): ClearanceRule[] {
  return [
    {
      rule: 'trace to pad',
      obstacleDiameter: pack.landDiameter,
      clearance: fabrication.traceToPad.outer,
    },
    {
      rule: 'mask opening to trace',
      obstacleDiameter: pack.maskOpening,
      clearance: fabrication.maskOpeningToTrace,
    },
  ]
}

/** A via on one layer, with its pad there or as a bare hole. Vias count as covered by mask. */
export function viaRules(
  via: ViaType,
  layer: number,
  outer: boolean,
  pad: boolean,
  fabrication: Fabrication,
): ClearanceRule[] {
  const hole: ClearanceRule = {
    rule: 'drill to copper',
    obstacleDiameter: via.drilledDiameter,
    clearance: fabrication.drillToCopper,
  }
  if (!pad) return [hole]
  return [
    {
      rule: 'trace to pad',
      obstacleDiameter: padDiameter(via, layer),
      clearance: figureOn(outer, fabrication.traceToPad),
    },
    hole,
  ]
}

/** Pad on a layer of the via's span; the drilled diameter where the list of pads is too short. */
export function padDiameter(via: ViaType, layer: number): Metres {
  const first = Math.min(via.firstLayer, via.lastLayer)
  return via.padDiameters[layer - first] ?? via.drilledDiameter
}

/** From the centre of an obstacle to the nearest edge of a trace that every rule allows. */
export function reachOf(rules: readonly ClearanceRule[]): Metres {
  return Math.max(0, ...rules.map((rule) => rule.obstacleDiameter / 2 + rule.clearance))
}
