import type { CrossSection } from '../../section/crossSection.ts'
import type { RelativePermittivity } from './scene.ts'

/**
 * Refuses a cross-section that the field solution has no answer for: a length that is not above 0, side walls that
 * meet, no dielectric between copper and a plane, a permittivity below 1, or anything that is not a finite number.
 *
 * Throws RangeError with the value and its unit.
 */
export function checkSection(section: CrossSection, relative: RelativePermittivity): void {
  const { trace, gap, coplanarGap, broadside, mask, planeAbove } = section
  checkLength('trace width', trace.width)
  checkLength('trace width at the top', trace.topWidth)
  checkLength('trace thickness', trace.thickness)
  if (!(trace.topWidth <= trace.width)) {
    throw new RangeError(
      `trace ${trace.topWidth} m wide at the top is wider than its foot of ${trace.width} m`,
    )
  }
  if (gap !== null) checkLength('gap of the pair', gap)
  if (coplanarGap !== null) checkLength('gap to coplanar ground', coplanarGap)
  if ((gap !== null) !== (section.arrangement === 'edge pair')) {
    throw new RangeError(`an ${section.arrangement} does not go with a gap of ${gap} m`)
  }
  checkSheets('below the trace', section.below, relative)
  if (planeAbove !== null || section.above.length > 0) checkSheets('above the trace', section.above, relative)
  if (broadside !== null) checkSheets('between the broadside traces', broadside.sheets, relative)
  if (mask === null) return
  checkLength('mask over the laminate', mask.overLaminate)
  checkLength('mask over the trace', mask.overTrace)
  checkPermittivity('mask', relative(mask))
}

function checkSheets(where: string, sheets: CrossSection['below'], relative: RelativePermittivity): void {
  if (sheets.length === 0)
    throw new RangeError(`there is no dielectric ${where}: copper would touch the plane`)
  for (const sheet of sheets) {
    checkLength(`thickness of ${sheet.name} ${where}`, sheet.thickness)
    checkPermittivity(`${sheet.name} ${where}`, relative(sheet))
  }
}

/** Throws RangeError unless a length is above 0 and finite. */
export function checkLength(what: string, length: number): void {
  if (!(length > 0 && Number.isFinite(length))) {
    throw new RangeError(`${what} must be above 0 and finite, got ${length} m`)
  }
}

function checkPermittivity(what: string, permittivity: number): void {
  if (!(permittivity >= 1 && Number.isFinite(permittivity))) {
    throw new RangeError(
      `relative permittivity of ${what} must be at least 1 and finite, got ${permittivity}`,
    )
  }
}
