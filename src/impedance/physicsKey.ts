import type { CrossSection, DielectricSheet } from '../section/crossSection.ts'
import type { Ratio } from '../units/quantity.ts'

/**
 * A text that two sections share exactly when their fields are the same: sizes and permittivities, without the
 * names, layers and assumptions that stand beside them.
 */
export function physicsKey(
  section: CrossSection,
  relative: (sheet: Pick<DielectricSheet, 'permittivity'>) => Ratio,
): string {
  const { trace, mask, broadside } = section
  const sheets = (list: readonly DielectricSheet[]): string =>
    list.map((sheet) => `${sheet.thickness}:${relative(sheet)}`).join(',')
  return [
    section.arrangement,
    trace.width,
    trace.topWidth,
    trace.thickness,
    trace.foot,
    section.gap,
    section.coplanarGap,
    sheets(section.below),
    sheets(section.above),
    broadside === null ? '' : sheets(broadside.sheets),
    mask === null ? '' : `${mask.overLaminate},${mask.overTrace}:${relative(mask)}`,
    section.planeAbove === null ? 'open' : 'closed',
  ].join('|')
}
