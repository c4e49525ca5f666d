import type { CrossSection, DielectricSheet } from '../../section/crossSection.ts'
import type { Metres } from '../../units/quantity.ts'

/** A level dielectric of a cross-section, in metres above the lower plane. */
export interface SectionSlab {
  /** Null for the air beside a trace on the surface. */
  readonly sheet: DielectricSheet | null
  readonly low: Metres
  readonly high: Metres
  /** Beside the copper of a trace, filled by the sheet that its body stands in. */
  readonly besideTrace: boolean
}

/** From the lower plane up to the upper one or to the top of the laminate, without the mask. */
export function sectionSlabs({ trace, below, above, broadside }: CrossSection): SectionSlab[] {
  const slabs: SectionSlab[] = []
  const put = (sheet: DielectricSheet | null, thickness: Metres, besideTrace: boolean): void => {
    const low = slabs.at(-1)?.high ?? 0
    slabs.push({ sheet, low, high: low + thickness, besideTrace })
  }
  const putTrace = (under: readonly DielectricSheet[], over: readonly DielectricSheet[]): void => {
    put((trace.foot === 'below' ? over[0] : under[0]) ?? null, trace.thickness, true)
  }
  const putSheets = (sheets: readonly DielectricSheet[]): void => {
    for (const sheet of sheets) put(sheet, sheet.thickness, false)
  }
  putSheets([...below].reverse())
  // The sheets between run downwards: the last one lies on the lower trace.
  putTrace(below, broadside === null ? above : broadside.sheets.slice(-1))
  if (broadside !== null) {
    putSheets([...broadside.sheets].reverse())
    putTrace(broadside.sheets, above)
  }
  putSheets(above)
  return slabs
}
