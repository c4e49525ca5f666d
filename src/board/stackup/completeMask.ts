import { formatLength } from '../../units/format.ts'
import type { Path } from '../document/path.ts'
import { Notes, type Completed, type ReadingContext } from '../notes.ts'
import type { MaskText } from '../schema/stackupSchema.ts'
import type { MaskLayer } from '../stackup.ts'
import { completePermittivity } from './completePermittivity.ts'
import { ASSUMED_MASK } from './laminates.ts'

/** Solder mask as described, with the thickness and permittivity of an ordinary one filled in. */
export function completeMask(
  text: MaskText,
  side: MaskLayer['side'],
  path: Path,
  context: ReadingContext,
): Completed<MaskLayer | null> {
  const notes = new Notes(context)
  const { overLaminate, overTrace, permittivity } = ASSUMED_MASK
  const print = (value: number): string => formatLength(value, context.displayUnit)
  if (text.over_laminate === undefined) {
    notes.assume(
      [...path, 'over_laminate'],
      `thickness of ${text.mask} over laminate`,
      print(overLaminate),
      permittivity.source,
    )
  }
  if (text.over_trace === undefined) {
    notes.assume(
      [...path, 'over_trace'],
      `thickness of ${text.mask} over traces`,
      print(overTrace),
      permittivity.source,
    )
  }
  return notes.complete({
    kind: 'mask',
    name: text.mask,
    side,
    thicknessOverLaminate: text.over_laminate ?? overLaminate,
    thicknessOverTrace: text.over_trace ?? overTrace,
    permittivity: completePermittivity(text, text.mask, ASSUMED_MASK, path, notes),
    assumed: notes.assumptions,
  })
}
