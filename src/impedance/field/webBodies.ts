import type { Metres } from '../../units/quantity.ts'
import type { Body, Foil } from './picture.ts'
import { GROUNDED } from './wall.ts'

export interface PlaneCut {
  readonly halfChannel: Metres
  /** Width of every opening, about each via. */
  readonly opening: Metres
  /** Lower face and thickness of the plane. */
  readonly low: Metres
  readonly thickness: Metres
  /** Height of the face that the traces see: the lower or the upper one. */
  readonly seen: Metres
  /** Where the picture ends. */
  readonly right: Metres
}

/**
 * The right half of a perforated plane: half the web under the channel, an opening, the web of the next channel, an
 * opening, solid to the end. Openings wider than the channel run into each other and leave no web. Beyond the first
 * opening a foil at the level of the near face does for the plane: its thickness there moves the ratio of loaded to
 * solid impedance by less than 1e-4.
 */
export function webBodies(cut: PlaneCut): { bodies: Body[]; foils: Foil[] } {
  const { halfChannel, opening, low, thickness, seen, right } = cut
  const edge = halfChannel - opening / 2
  const top = low + thickness
  const outline = [
    { x: 0, y: low },
    { x: 0, y: top },
    { x: edge, y: top },
    { x: edge, y: low },
  ]
  const foils = [
    { from: halfChannel + opening / 2, to: 3 * halfChannel - opening / 2, y: seen },
    { from: 3 * halfChannel + opening / 2, to: right, y: seen },
  ]
  return {
    bodies: edge > 0 ? [{ conductor: GROUNDED, outline }] : [],
    foils: foils.filter(({ from, to }) => to > from),
  }
}
