import type { CrossSection, DielectricSheet, MaskCoat } from '../../section/crossSection.ts'
import type { Metres, Ratio } from '../../units/quantity.ts'
import type { Bump } from './bump.ts'
import { maskOutline } from './maskOutline.ts'
import type { Body, Picture, Slab } from './picture.ts'
import { GROUNDED } from './wall.ts'

/** Relative permittivity of a sheet at the frequency of the solution. */
export type RelativePermittivity = (sheet: Pick<DielectricSheet, 'permittivity'>) => Ratio

/** A cross-section before it is cut off at its sides. */
export interface Scene {
  readonly slabs: readonly Slab[]
  /** Traces, and what else stands in their layers. */
  readonly bumps: readonly Bump[]
  /** Height of the lid, or of all that stands above the plane. */
  readonly top: Metres
  /** Height of all but a mask. */
  readonly laminate: Metres
  readonly lid: Metres | null
  /** A mask that follows the copper, on an outer layer. */
  readonly coat: MaskCoat | null
  readonly conductors: number
}

/** Interfaces and side grounds end this many structure heights away; four times as far moves the answer by 1e-5. */
const OPEN_REACH = 40
const CLOSED_REACH = 6

/**
 * The dielectrics of a cross-section from its lower plane upwards, and the traces of its right half.
 *
 * Conventions that move the answer: the slab beside a trace is filled by the dielectric that its body stands
 * in; mask covers the side walls as thickly as the top, and fills a gap that it closes; coplanar ground is as
 * thick as the trace and reaches out of the picture; planes are perfect and unbroken.
 */
export function sceneOf(section: CrossSection, relative: RelativePermittivity): Scene {
  const { trace, below, above, broadside, mask, planeAbove } = section
  const coat = above.length === 0 ? mask : null
  const slabs: Slab[] = []
  let height = 0
  const pile = (thickness: Metres, permittivity: Ratio): void => {
    slabs.push({ bottom: height, permittivity })
    height += thickness
  }
  const pileSheets = (sheets: readonly DielectricSheet[]): void => {
    for (const sheet of sheets) pile(sheet.thickness, relative(sheet))
  }
  const levels: Metres[] = []
  const pileTrace = (under: readonly DielectricSheet[], over: readonly DielectricSheet[]): void => {
    levels.push(height)
    const body = trace.foot === 'below' ? over[0] : under[0]
    pile(trace.thickness, coat !== null ? relative(coat) : body === undefined ? 1 : relative(body))
  }
  pileSheets([...below].reverse())
  // The sheets of a broadside pair are listed downwards, like those below: the last lies on the lower trace.
  const between = broadside === null ? null : [...broadside.sheets].reverse()
  pileTrace(below, between ?? above)
  if (broadside !== null && between !== null) {
    pileSheets(between)
    pileTrace(broadside.sheets, above)
  }
  pileSheets(above)
  const laminate = height
  if (mask !== null && coat === null) pile(mask.overLaminate, relative(mask))
  if (planeAbove === null) slabs.push({ bottom: height, permittivity: coat === null ? 1 : relative(coat) })
  return {
    slabs,
    bumps: levels.flatMap((y, conductor) => bumpsAt(section, y, conductor)),
    top: height,
    laminate,
    lid: planeAbove === null ? null : height,
    coat,
    conductors: levels.length,
  }
}

/** How far from the outermost conductor the picture of a scene is cut off. */
export function sideReach({ top, lid }: Pick<Scene, 'top' | 'lid'>): Metres {
  return (lid === null ? OPEN_REACH : CLOSED_REACH) * top
}

/** What else is in a picture: bodies, foils, and bumps that are there for a mask to follow. */
export interface Others extends Pick<Picture, 'bodies' | 'foils'> {
  readonly humps: readonly Bump[]
}

/** A scene cut off at its sides. */
export function scenePicture(
  scene: Scene,
  { left, right, sharpUntil = right }: Pick<Picture, 'left' | 'right'> & { readonly sharpUntil?: Metres },
  others: Others = { bodies: [], foils: [], humps: [] },
): Picture {
  const { slabs, lid, coat, conductors } = scene
  const bumps = scene.bumps.map((bump) =>
    bump.endless ? { ...bump, lowRight: right, highRight: right } : bump,
  )
  return {
    slabs,
    bodies: [...bumps.map(bodyOf), ...others.bodies],
    foils: others.foils,
    surface: coat === null ? null : maskOutline([...bumps, ...others.humps], coat, left, right),
    left,
    right,
    sharpUntil,
    lid,
    symmetric: left === 0,
    conductors,
  }
}

/** The part of a bump right of the axis where it straddles it. */
function bodyOf({ onAxis, lowLeft, highLeft, highRight, lowRight, y, thickness, conductor }: Bump): Body {
  const top = y + thickness
  return {
    conductor,
    outline: [
      { x: onAxis ? 0 : lowLeft, y },
      { x: onAxis ? 0 : highLeft, y: top },
      { x: highRight, y: top },
      { x: lowRight, y },
    ],
  }
}

function bumpsAt(section: CrossSection, y: Metres, conductor: number): Bump[] {
  const { trace, gap, coplanarGap } = section
  const start = gap === null ? 0 - trace.width / 2 : gap / 2
  const signal = { ...traceBump(section, start, y, conductor), onAxis: gap === null }
  if (coplanarGap === null) return [signal]
  const ground = traceBump(section, start + trace.width + coplanarGap, y, GROUNDED)
  return [signal, { ...ground, lowRight: Infinity, highRight: Infinity, endless: true }]
}

/** A trace of the section's shape whose left edge is at `start`. */
export function traceBump({ trace }: CrossSection, start: Metres, y: Metres, conductor: number): Bump {
  const inset = (trace.width - trace.topWidth) / 2
  const [low, high] = trace.foot === 'below' ? [0, inset] : [inset, 0]
  const end = start + trace.width
  return {
    lowLeft: start + low,
    lowRight: end - low,
    highLeft: start + high,
    highRight: end - high,
    y,
    thickness: trace.thickness,
    conductor,
    onAxis: false,
    endless: false,
  }
}
