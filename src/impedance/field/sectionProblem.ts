import type { CrossSection, DielectricSheet, MaskCoat } from '../../section/crossSection.ts'
import type { Metres, Ratio } from '../../units/quantity.ts'
import type { Bump } from './bump.ts'
import { maskOutline } from './maskOutline.ts'
import { GROUNDED, type FieldProblem, type Wall } from './wall.ts'

/** Interfaces and side grounds end this many structure heights away; four times as far moves the answer by 1e-5. */
const OPEN_REACH = 40
const CLOSED_REACH = 6

/** Relative permittivity of a sheet at the frequency of the solution. */
export type RelativePermittivity = (sheet: Pick<DielectricSheet, 'permittivity'>) => Ratio

/** Horizontal dielectric, from its lower face up to the next one's. */
interface Slab {
  readonly bottom: Metres
  readonly permittivity: Ratio
}

/**
 * Boundaries of the right half of a cross-section.
 *
 * Conventions that move the answer: the slab beside a trace is filled by the dielectric that its body stands
 * in; mask covers the side walls as thickly as the top, and fills a gap that it closes; coplanar ground is as
 * thick as the trace and reaches out of the picture; planes are perfect and unbroken.
 */
export function sectionProblem(section: CrossSection, relative: RelativePermittivity): FieldProblem {
  const scene = sceneOf(section, relative)
  const reach = (section.planeAbove === null ? OPEN_REACH : CLOSED_REACH) * scene.top + scene.width
  const bumps = scene.bumps.map((bump) =>
    bump.endless ? { ...bump, lowRight: reach, highRight: reach } : bump,
  )
  const coat = section.mask !== null && section.above.length === 0 ? section.mask : null
  const outer = coat === null ? null : { coat, permittivity: relative(coat) }
  return {
    walls: [
      ...bumps.flatMap((bump) => faces(bump, scene.slabs, outer?.permittivity ?? null, reach)),
      ...interfaces(scene.slabs, bumps, outer?.permittivity ?? null, reach),
      ...(outer === null ? [] : maskWalls(bumps, outer.coat, outer.permittivity, reach)),
    ],
    conductors: section.broadside === null ? 1 : 2,
    lid: section.planeAbove === null ? null : scene.top,
    symmetric: true,
  }
}

interface Scene {
  readonly bumps: readonly Bump[]
  readonly slabs: readonly Slab[]
  /** Height of the lid, or of all that stands above the plane. */
  readonly top: Metres
  readonly width: Metres
}

function sceneOf(section: CrossSection, relative: RelativePermittivity): Scene {
  const { trace, below, above, broadside, mask } = section
  const slabs: Slab[] = []
  let height = 0
  const pile = (sheets: readonly { thickness: Metres; permittivity: Ratio }[]): void => {
    for (const { thickness, permittivity } of sheets) {
      slabs.push({ bottom: height, permittivity })
      height += thickness
    }
  }
  const measured = (sheets: readonly DielectricSheet[]): { thickness: Metres; permittivity: Ratio }[] =>
    sheets.map((sheet) => ({ thickness: sheet.thickness, permittivity: relative(sheet) }))
  const levels: Metres[] = []
  const pileTrace = (under: readonly DielectricSheet[], over: readonly DielectricSheet[]): void => {
    levels.push(height)
    const body = trace.foot === 'below' ? over[0] : under[0]
    pile([{ thickness: trace.thickness, permittivity: body === undefined ? 1 : relative(body) }])
  }
  const downwards = [...below].reverse()
  pile(measured(downwards))
  pileTrace(below, broadside?.sheets ?? above)
  if (broadside !== null) {
    pile(measured([...broadside.sheets].reverse()))
    pileTrace([...broadside.sheets], above)
  }
  pile(measured(above))
  if (mask !== null && above.length > 0) {
    pile([{ thickness: mask.overLaminate, permittivity: relative(mask) }])
  }
  if (section.planeAbove === null) slabs.push({ bottom: height, permittivity: 1 })
  const bumps = levels.flatMap((y, conductor) => bumpsAt(section, y, conductor))
  return {
    bumps,
    slabs,
    top: height,
    width: Math.max(...bumps.map((bump) => (bump.endless ? bump.lowLeft : bump.lowRight))),
  }
}

function bumpsAt(section: CrossSection, y: Metres, conductor: number): Bump[] {
  const { trace, gap, coplanarGap } = section
  const inset = (trace.width - trace.topWidth) / 2
  const [low, high] = trace.foot === 'below' ? [0, inset] : [inset, 0]
  const start = gap === null ? 0 - trace.width / 2 : gap / 2
  const end = start + trace.width
  const signal: Bump = {
    lowLeft: start + low,
    lowRight: end - low,
    highLeft: start + high,
    highRight: end - high,
    y,
    thickness: trace.thickness,
    conductor,
    onAxis: gap === null,
    endless: false,
  }
  if (coplanarGap === null) return [signal]
  const left = end + coplanarGap
  const ground = {
    ...signal,
    lowLeft: left + low,
    highLeft: left + high,
    lowRight: Infinity,
    highRight: Infinity,
  }
  return [signal, { ...ground, conductor: GROUNDED, onAxis: false, endless: true }]
}

function wall(
  from: { x: Metres; y: Metres },
  to: { x: Metres; y: Metres },
  rest: Pick<Wall, 'conductor' | 'left' | 'right' | 'cornerAtFrom' | 'cornerAtTo'>,
): Wall {
  return { from, to, ...rest }
}

/** The faces of a conductor, clockwise, so that the dielectric is on the left. */
function faces(bump: Bump, slabs: readonly Slab[], coat: Ratio | null, reach: Metres): Wall[] {
  const { y, thickness, conductor, onAxis, endless } = bump
  const top = y + thickness
  const under = slabAt(slabs, y, 'below')
  const beside = coat ?? slabAt(slabs, y, 'above')
  const over = coat ?? slabAt(slabs, top, 'above')
  const left = onAxis ? 0 : bump.highLeft
  const lowLeft = onAxis ? 0 : bump.lowLeft
  const right = endless ? reach : bump.highRight
  const lowRight = endless ? reach : bump.lowRight
  const face = (
    from: [Metres, Metres],
    to: [Metres, Metres],
    outside: Ratio,
    cornerAtFrom: boolean,
    cornerAtTo: boolean,
  ): Wall =>
    wall(
      { x: from[0], y: from[1] },
      { x: to[0], y: to[1] },
      { conductor, left: outside, right: outside, cornerAtFrom, cornerAtTo },
    )
  return [
    ...(onAxis ? [] : [face([lowLeft, y], [left, top], beside, true, true)]),
    face([left, top], [right, top], over, !onAxis, !endless),
    ...(endless ? [] : [face([right, top], [lowRight, y], beside, true, true)]),
    face([lowRight, y], [lowLeft, y], under, !endless, !onAxis),
  ]
}

function slabAt(slabs: readonly Slab[], y: Metres, side: 'above' | 'below'): Ratio {
  const found = slabs.filter((slab) => (side === 'above' ? slab.bottom <= y : slab.bottom < y)).at(-1)
  return found?.permittivity ?? 1
}

/** Level interfaces between slabs, interrupted by conductors that stand on or hang from them. */
function interfaces(
  slabs: readonly Slab[],
  bumps: readonly Bump[],
  coat: Ratio | null,
  reach: Metres,
): Wall[] {
  return slabs.slice(1).flatMap((slab, index) => {
    const right = slabs[index]?.permittivity ?? 1
    const standing = bumps.filter((bump) => bump.y === slab.bottom)
    const hanging = bumps.filter((bump) => bump.y + bump.thickness === slab.bottom)
    const left = standing.length > 0 && coat !== null ? coat : slab.permittivity
    if (left === right) return []
    const taken = [
      ...standing.map((bump) => ({ from: bump.onAxis ? 0 : bump.lowLeft, to: bump.lowRight })),
      ...hanging.map((bump) => ({ from: bump.onAxis ? 0 : bump.highLeft, to: bump.highRight })),
    ]
    return freeStretches(taken, reach).map(({ from, to }) =>
      wall(
        { x: from, y: slab.bottom },
        { x: to, y: slab.bottom },
        { conductor: null, left, right, cornerAtFrom: from > 0, cornerAtTo: to < reach },
      ),
    )
  })
}

function freeStretches(
  taken: readonly { from: Metres; to: Metres }[],
  reach: Metres,
): { from: Metres; to: Metres }[] {
  const stretches: { from: Metres; to: Metres }[] = []
  let at = 0
  for (const { from, to } of taken) {
    if (from > at) stretches.push({ from: at, to: from })
    at = to
  }
  if (at < reach) stretches.push({ from: at, to: reach })
  return stretches
}

/** The mask's face to the air. */
function maskWalls(bumps: readonly Bump[], coat: MaskCoat, permittivity: Ratio, reach: Metres): Wall[] {
  const outline = maskOutline(bumps, coat, reach)
  return outline.slice(1).map((to, index) => {
    const from = outline[index] ?? to
    return wall(from, to, {
      conductor: null,
      left: 1,
      right: permittivity,
      cornerAtFrom: index > 0,
      cornerAtTo: index < outline.length - 2,
    })
  })
}
