import type { CopperLayer, Stackup } from '../board/stackup.ts'
import type { ViaType } from '../board/vias.ts'
import type { BesideNeck } from '../routes/route.ts'
import type { Metres } from '../units/quantity.ts'
import type { CrossSection, ReferencePlane } from './crossSection.ts'
import { lookFrom } from './lookFrom.ts'
import type { PerforatedPlane, Surroundings } from './surroundings.ts'

/**
 * The channel between two rows of vias, or lands, like those beside a neck: in every place, on both sides, as far from
 * its middle as they are from the neck. They count as held at zero volts, and have antipads in the planes that they
 * pass; only vias of power and ground have none in planes of their own net.
 */
export function surroundingsOf(
  stackup: Stackup,
  vias: readonly ViaType[],
  section: CrossSection,
  beside: BesideNeck,
): Surroundings {
  const holes = beside.via === null ? [] : namedVias(vias, beside.via)
  const plane = (reference: ReferencePlane): PerforatedPlane => {
    const copper = stackup.copper[reference.layer - 1]
    if (copper === undefined) throw new RangeError(`there is no copper layer ${reference.layer}`)
    const joined = beside.supply !== null && beside.supply === reference.net
    const openings = holes.flatMap((via) => (spans(via, reference.layer) ? [via.antipadDiameter] : []))
    return {
      antipad: joined || openings.length === 0 ? null : Math.max(...openings),
      thickness: copper.thickness,
      behind: behind(stackup, copper, reference.layer > section.layer ? 'below' : 'above'),
    }
  }
  return {
    viaPitch: beside.pitch,
    halfChannel: beside.distance,
    barrel: beside.barrel,
    pad: beside.pad,
    grounded: true,
    planeBelow: plane(section.planeBelow),
    planeAbove: section.planeAbove === null ? null : plane(section.planeAbove),
  }
}

/** Holes one below the other are named together, joined by plus signs. */
function namedVias(vias: readonly ViaType[], name: string): ViaType[] {
  const single = vias.find((via) => via.name === name)
  if (single !== undefined) return [single]
  const names = new Set(name.split(' + '))
  return vias.filter((via) => names.has(via.name))
}

function spans({ firstLayer, lastLayer }: ViaType, layer: number): boolean {
  return firstLayer <= layer && layer <= lastLayer
}

/** Dielectric from a plane to the next one, seen away from the trace. */
function behind(stackup: Stackup, plane: CopperLayer, direction: 'above' | 'below'): Metres | null {
  const view = lookFrom(stackup, plane, direction)
  return view.plane === null ? null : view.sheets.reduce((sum, { thickness }) => sum + thickness, 0)
}
