import type { CrossSection } from '../../section/crossSection.ts'
import type { Metres } from '../../units/quantity.ts'
import { checkLength, checkSection } from './checkSection.ts'
import { pictureProblem } from './picture.ts'
import { type RelativePermittivity, sceneOf, scenePicture, sideReach, traceBump } from './scene.ts'
import { GROUNDED, type FieldProblem } from './wall.ts'

/** One of several traces side by side on a layer. */
export interface RowTrace {
  /** Of the foot, from left to right in the row. */
  readonly middle: Metres
  /** At the foot. */
  readonly width: Metres
  /** At zero volts all along, as a guard trace stitched to the planes: it gets no number. */
  readonly grounded: boolean
}

/**
 * Any number of traces side by side in the dielectrics, and with the thickness and the side walls, of a section's
 * trace; those that are not grounded are numbered from 0 in the order given. Unbroken planes, as in `sectionProblem`.
 * The section's own trace, gap and coplanar ground play no part.
 *
 * Throws RangeError when a width is too small for its side walls, when none carries a signal, and when solved if
 * traces touch.
 */
export function traceRowProblem(
  section: CrossSection,
  traces: readonly RowTrace[],
  relative: RelativePermittivity,
): FieldProblem {
  checkSection(section, relative)
  if (!traces.some((trace) => !trace.grounded)) throw new RangeError('none of the traces carries a signal')
  const scene = sceneOf({ ...section, arrangement: 'single', gap: null, broadside: null }, relative)
  const level = scene.bumps[0]?.y ?? 0
  let number = 0
  const bumps = traces.map(({ middle, width, grounded }) => {
    const topWidth = width - section.trace.width + section.trace.topWidth
    checkLength('trace width at the top', topWidth)
    const shape = { ...section, trace: { ...section.trace, width, topWidth } }
    const conductor = grounded ? GROUNDED : number++
    return traceBump(shape, middle - width / 2, level, conductor)
  })
  const reach = sideReach(scene)
  const left = Math.min(...bumps.map((bump) => bump.lowLeft)) - reach
  const right = Math.max(...bumps.map((bump) => bump.lowRight)) + reach
  return {
    ...pictureProblem(scenePicture({ ...scene, bumps, conductors: number }, { left, right })),
    symmetric: false,
  }
}
