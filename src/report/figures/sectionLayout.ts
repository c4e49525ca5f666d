import type { CrossSection, DielectricSheet } from '../../section/crossSection.ts'
import type { Metres } from '../../units/quantity.ts'

/** Where the parts of a cross-section lie in a drawing, in user units from the lower plane's face upwards. */
export interface SectionLayout {
  readonly scale: number
  readonly sheets: readonly PlacedSheet[]
  /** Foot line to face line of each trace level: one, or two face to face. */
  readonly traceLevels: readonly {
    readonly low: number
    readonly high: number
    readonly foot: 'below' | 'above'
  }[]
  /** Centres of the traces across the drawing, in metres from its middle. */
  readonly traceCentres: readonly Metres[]
  /** Height of everything between the planes, or up to the top of the dielectric. */
  readonly height: number
  readonly cutBelow: boolean
  readonly cutAbove: boolean
}

export interface PlacedSheet {
  readonly sheet: DielectricSheet
  readonly low: number
  readonly high: number
  readonly cut: boolean
}

const TRACE_EXTENT = 140
const NEAR_DISTANCE = 90
const CUT_AT = 110

/**
 * Places a cross-section at one scale in both directions: as large as leaves the traces and the nearer plane
 * comfortably in view. A plane much farther away would shrink everything else, so the way to it is cut short.
 */
export function layOutSection(section: CrossSection): SectionLayout {
  const sum = (sheets: readonly DielectricSheet[]): Metres =>
    sheets.reduce((total, sheet) => total + sheet.thickness, 0)
  const below = sum(section.below)
  const above = section.planeAbove === null ? 0 : sum(section.above)
  const near = above > 0 ? Math.min(above, below) : below
  const extent = traceExtent(section)
  const scale = Math.min(TRACE_EXTENT / extent, NEAR_DISTANCE / near)
  const tall = section.trace.thickness * scale
  const lower = stack([...section.below], scale, 0)
  const under = lower.height
  const lowerPlaced = lower.placed.map((each) => ({
    ...each,
    low: under - each.high,
    high: under - each.low,
  }))
  const between = section.broadside === null ? null : stack(section.broadside.sheets, scale, under + tall)
  const firstTop = under + tall
  const secondTop = between === null ? firstTop : firstTop + between.height + tall
  const upper = stack(section.above, scale, secondTop)
  const level = { low: under, high: firstTop, foot: section.trace.foot }
  return {
    scale,
    sheets: [...lowerPlaced, ...(between?.placed ?? []), ...upper.placed],
    traceLevels:
      between === null
        ? [level]
        : [level, { low: secondTop - tall, high: secondTop, foot: section.trace.foot }],
    traceCentres: traceCentres(section),
    height: secondTop + upper.height,
    cutBelow: lower.placed.some((each) => each.cut),
    cutAbove: upper.placed.some((each) => each.cut),
  }
}

/** Sheets from `start` upwards, in the order given, as far as the drawing goes. */
function stack(
  sheets: readonly DielectricSheet[],
  scale: number,
  start: number,
): { placed: PlacedSheet[]; height: number } {
  const placed: PlacedSheet[] = []
  let height = 0
  for (const sheet of sheets) {
    const whole = sheet.thickness * scale
    const drawn = Math.max(Math.min(whole, CUT_AT - height), 0)
    if (drawn > 0)
      placed.push({ sheet, low: start + height, high: start + height + drawn, cut: drawn < whole - 1e-9 })
    height += drawn
  }
  const last = placed.at(-1)
  const lost = placed.length < sheets.length
  if (last !== undefined && lost) placed[placed.length - 1] = { ...last, cut: true }
  return { placed, height }
}

function traceExtent(section: CrossSection): Metres {
  const { trace, gap, coplanarGap } = section
  const traces = gap === null ? trace.width : 2 * trace.width + gap
  // Some of the ground beside the traces, so that its gap can be seen.
  return coplanarGap === null ? traces : (traces + 2 * coplanarGap + 2 * trace.width) * 0.6
}

function traceCentres({ trace, gap }: CrossSection): Metres[] {
  if (gap === null) return [0]
  const offset = (trace.width + gap) / 2
  return [-offset, offset]
}

/** From the middle of the drawing to the outer foot edge of the traces. */
export function outerEdge(section: CrossSection): Metres {
  return section.gap === null ? section.trace.width / 2 : section.trace.width + section.gap / 2
}
