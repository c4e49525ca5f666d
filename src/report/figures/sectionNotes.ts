import { uprightDimension } from '../../charts/dimension.ts'
import { INK, TYPE } from '../../charts/ink.ts'
import { label, textWidth } from '../../charts/marks.ts'
import { formatLength } from '../../units/format.ts'
import type { LengthUnit, Metres } from '../../units/quantity.ts'
import type { CrossSection } from '../../section/crossSection.ts'
import { outerEdge } from './sectionLayout.ts'
import type { SectionLayout } from './sectionLayout.ts'
import { BODY } from './sectionPlaces.ts'
import type { Upright } from './sectionPlaces.ts'
import { permittivityText, sideWallMark } from './sectionTexts.ts'

/** Height that two lines of text take. */
const TWO_LINES = 30

/** A stretch of height beside the drawing, with up to two lines of text. */
export interface SideNote {
  readonly from: number
  readonly to: number
  readonly lines: readonly string[]
}

/** Each stretch between trace and plane with its thickness and permittivity, and the copper itself. */
export function sideNotes(section: CrossSection, layout: SectionLayout, unit: LengthUnit): SideNote[] {
  const sheets = layout.sheets.map(({ sheet, low, high, cut }) => ({
    from: low,
    to: high,
    lines: [
      `${sheet.name} ${formatLength(sheet.thickness, unit)}${cut ? ' (cut short)' : ''}`,
      permittivityText(sheet, section),
    ],
  }))
  const copper = layout.traceLevels.slice(0, 1).map(({ low, high }) => ({
    from: low,
    to: high,
    lines: [`copper ${formatLength(section.trace.thickness, unit)} on ${section.layerName}`],
  }))
  return [...sheets, ...copper]
}

/** The text of a low stretch goes on one line, so that it does not reach into its neighbours. */
export function drawNote({ from, to, lines }: SideNote, { y }: Upright): string {
  const [first = '', second] = lines
  const high = Math.abs(to - from)
  const at = BODY.right + 12
  if (second === undefined || high < TWO_LINES) {
    return uprightDimension({ from: y(from), to: y(to), at, text: lines.join(', ') })
  }
  const middle = (y(from) + y(to)) / 2
  return (
    uprightDimension({ from: y(from), to: y(to), at, text: '' }) +
    label(first, { x: at + 8, y: middle - 2.5 }, { 'font-size': TYPE.small }) +
    label(second, { x: at + 8, y: middle + 10.5 }, { 'font-size': TYPE.small, fill: INK.quiet })
  )
}

/** How far to the right its text reaches. */
export function noteWidth({ from, to, lines }: SideNote): number {
  const longest =
    Math.abs(to - from) < TWO_LINES
      ? lines.join(', ')
      : lines.reduce((a, b) => (b.length > a.length ? b : a), '')
  return BODY.right + 24 + textWidth(longest, TYPE.small)
}

/** A stretch of width to dimension, in metres from the middle of the drawing. */
export interface LevelPiece {
  readonly from: Metres
  readonly to: Metres
  readonly text: string
}

export function levelPieces(section: CrossSection, unit: LengthUnit): LevelPiece[] {
  const { trace, gap, coplanarGap } = section
  const edge = outerEdge(section)
  const middle = trace.width / 2 - edge
  return [
    { from: 0 - edge, to: trace.width - edge, text: `width at the foot ${formatLength(trace.width, unit)}` },
    {
      from: middle - trace.topWidth / 2,
      to: middle + trace.topWidth / 2,
      text: `width at the top ${formatLength(trace.topWidth, unit)}${sideWallMark(section)}`,
    },
    ...(gap === null
      ? []
      : [{ from: 0 - gap / 2, to: gap / 2, text: `gap inside the pair ${formatLength(gap, unit)}` }]),
    ...(coplanarGap === null
      ? []
      : [
          {
            from: edge,
            to: edge + coplanarGap,
            text: `gap to coplanar ground ${formatLength(coplanarGap, unit)}`,
          },
        ]),
  ]
}
