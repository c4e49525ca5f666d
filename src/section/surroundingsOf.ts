import type { Package } from '../board/packages.ts'
import type { CopperLayer, Stackup } from '../board/stackup.ts'
import type { ViaType } from '../board/vias.ts'
import type { Metres } from '../units/quantity.ts'
import type { CrossSection, ReferencePlane } from './crossSection.ts'
import { lookFrom } from './lookFrom.ts'
import type { PerforatedPlane, Surroundings } from './surroundings.ts'

/**
 * What stands beside a neck that runs along the middle of a channel of a package: its vias, in a full grid, none of
 * them on the neck's own net. Every via has an antipad in every plane that it passes; vias count as held at zero volts.
 *
 * Null where the package's vias do not reach the neck's layer, and on the layer of the lands beneath dog-bones, whose
 * vias stand in the channel itself.
 */
export function surroundingsOf(
  stackup: Stackup,
  pack: Package,
  vias: readonly ViaType[],
  section: CrossSection,
): Surroundings | null {
  const via = vias.find((each) => each.name === pack.via && spans(each, section.layer))
  const landLayer = pack.placement.side === 'top' ? 1 : stackup.copper.length
  if (via === undefined || (section.layer === landLayer && pack.viaPlacement === 'dog-bone')) return null
  const { x, y } = pack.viaPitch
  return {
    viaPitch: Math.max(x, y),
    halfChannel: Math.min(x, y) / 2,
    barrel: via.drilledDiameter,
    pad: section.layer === landLayer ? pack.landDiameter : padOn(via, section.layer),
    grounded: true,
    planeBelow: perforated(stackup, via, section.layer, section.planeBelow),
    planeAbove:
      section.planeAbove === null ? null : perforated(stackup, via, section.layer, section.planeAbove),
  }
}

function spans({ firstLayer, lastLayer }: ViaType, layer: number): boolean {
  return firstLayer <= layer && layer <= lastLayer
}

/** Of a via that does not connect on the layer. */
function padOn(via: ViaType, layer: number): Metres | null {
  const atEnd = layer === via.firstLayer || layer === via.lastLayer
  return atEnd || via.unconnectedInnerPads === 'kept'
    ? (via.padDiameters[layer - via.firstLayer] ?? null)
    : null
}

function perforated(
  stackup: Stackup,
  via: ViaType,
  traceLayer: number,
  { layer }: ReferencePlane,
): PerforatedPlane {
  const copper = stackup.copper[layer - 1]
  if (copper === undefined) throw new RangeError(`there is no copper layer ${layer}`)
  return {
    antipad: spans(via, layer) ? via.antipadDiameter : null,
    thickness: copper.thickness,
    behind: behind(stackup, copper, layer > traceLayer ? 'below' : 'above'),
  }
}

/** Dielectric from a plane to the next one, seen away from the trace. */
function behind(stackup: Stackup, plane: CopperLayer, direction: 'above' | 'below'): Metres | null {
  const view = lookFrom(stackup, plane, direction)
  return view.plane === null ? null : view.sheets.reduce((sum, { thickness }) => sum + thickness, 0)
}
