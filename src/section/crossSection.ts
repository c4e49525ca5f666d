import type { Permittivity } from '../board/stackup.ts'
import type { Assumption } from '../units/assumption.ts'
import type { Metres, OhmMetres, Ratio } from '../units/quantity.ts'

/**
 * What a trace sees, derived from stackup, layer, width and gap: nobody picks it from a list.
 *
 * Orientation is normalised. With one plane, that plane is below; with two, the trace foot is
 * towards the lower one. `upsideDown` says whether the drawing is turned against the board.
 */
export interface CrossSection {
  readonly layer: number
  readonly layerName: string
  readonly upsideDown: boolean
  /** One plane or two. */
  readonly structure: 'microstrip' | 'stripline'
  readonly arrangement: 'single' | 'edge pair' | 'broadside pair'
  readonly trace: TraceShape
  /** Foot edge to foot edge inside an edge pair; null otherwise. */
  readonly gap: Metres | null
  /** Dielectric between the facing copper of a broadside pair, foot to body as built; null otherwise. */
  readonly broadside: { readonly layer: number; readonly sheets: readonly DielectricSheet[] } | null
  /** Ground in the same layer at this gap on both outer sides; null for none. */
  readonly coplanarGap: Metres | null
  /** From the trace's lower face down to the lower plane, in that order. */
  readonly below: readonly DielectricSheet[]
  /** Stripline: from the trace's upper face up to the upper plane. Microstrip: up to air, without the mask; empty on an outer layer. */
  readonly above: readonly DielectricSheet[]
  /** Microstrip only: mask over everything; null where there is none. */
  readonly mask: MaskCoat | null
  readonly planeBelow: ReferencePlane
  readonly planeAbove: ReferencePlane | null
  /** Signal layers between trace and plane whose copper was taken as absent. */
  readonly emptyLayers: readonly string[]
  readonly assumed: readonly Assumption[]
}

export interface TraceShape {
  /** Finished width at the foot. */
  readonly width: Metres
  readonly topWidth: Metres
  readonly thickness: Metres
  /** Side the foot is on. The body stands in the dielectric of the other side. */
  readonly foot: 'below' | 'above'
  /** Root-mean-square roughness of the copper face. */
  readonly roughness: Metres
  readonly resistivity: OhmMetres
}

export interface DielectricSheet {
  readonly name: string
  readonly thickness: Metres
  readonly permittivity: Permittivity
}

export interface MaskCoat {
  readonly overLaminate: Metres
  readonly overTrace: Metres
  readonly permittivity: Permittivity
}

export interface ReferencePlane {
  readonly layer: number
  readonly layerName: string
  readonly net: string | null
}

/** What a caller asks for. */
export interface LineRequest {
  readonly layer: number
  /** Finished foot width. */
  readonly width: Metres
  /** Edge-coupled partner at this gap; null for a single trace. */
  readonly gap: Metres | null
  readonly coplanarGap: Metres | null
  /** Copper layer of a broadside partner; null for none. Excludes `gap`. */
  readonly broadsideLayer: number | null
}

/** Distance and plate-equivalent permittivity of sheets in series, and the share each holds. */
export interface SheetStack {
  readonly thickness: Metres
  readonly relativePermittivity: Ratio
}
