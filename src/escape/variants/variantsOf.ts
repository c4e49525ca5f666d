import type { Board } from '../../board/board.ts'
import type { Package } from '../../board/packages.ts'
import { formatLength } from '../../units/format.ts'
import { chosenTechnology } from '../escapePackage.ts'
import { innerPadsVariant, smallPadsVariant } from './padVariants.ts'
import { finestVariant, oneTraceVariant, twoTracesVariant } from './traceVariants.ts'
import type { MainWidths } from './traceVariants.ts'
import { unchanged } from './variant.ts'
import type { Variant } from './variant.ts'
import { blindVariant, microviaVariant, throughVariant } from './viaVariants.ts'

/**
 * The ways to build the breakout of a package that are compared: the one described, and those that change one thing
 * of it. Pure: a board in, boards out; nothing is planned.
 */
export function variantsOf(board: Board, pack: Package, mainWidths: MainWidths): Variant[] {
  const described = { board, pack, technology: chosenTechnology(board, pack) }
  const place = pack.viaPlacement === 'in pad' ? 'in the lands' : 'beside the lands'
  const pitch = formatLength(Math.min(pack.pitch.x, pack.pitch.y), board.displayUnit)
  return [
    unchanged(described, 'as described', `${pack.via} ${place}, ball pitch ${pitch}`),
    throughVariant(described),
    blindVariant(described),
    microviaVariant(described),
    innerPadsVariant(described),
    smallPadsVariant(described),
    finestVariant(described),
    oneTraceVariant(described, mainWidths),
    twoTracesVariant(described, mainWidths),
  ]
}
