import { formatLength } from '../../units/format.ts'
import type { Metres } from '../../units/quantity.ts'
import type { Path } from '../document/path.ts'
import type { CapabilityClass } from '../fabrication/capabilityClasses.ts'
import type { Notes } from '../notes.ts'
import type { ViaText } from '../schema/viaSchema.ts'
import type { ViaType } from '../vias.ts'

/** What the antipad of a via depends on. */
export interface AntipadPlace {
  readonly path: Path
  readonly drilled: Metres
  /** On each layer of the span. */
  readonly padDiameters: readonly Metres[]
  readonly unconnectedInnerPads: ViaType['unconnectedInnerPads']
  readonly capability: CapabilityClass
}

/**
 * Diameter of the hole in planes that the via passes: as described, else what the capability class
 * puts over the drill, and round a pad that is larger than the class needs the same clearance. One
 * that leaves no gap to the hole, or to a pad that is kept there, is refused.
 */
export function viaAntipad(text: ViaText, place: AntipadPlace, notes: Notes): Metres {
  const antipad = text.antipad ?? assumedAntipad(text, place, notes)
  const { path, drilled, padDiameters, unconnectedInnerPads } = place
  const print = (value: Metres): string => formatLength(value, notes.context.displayUnit)
  const passed = unconnectedInnerPads === 'kept' ? padDiameters.slice(1, -1) : []
  const widest = Math.max(drilled, ...passed)
  if (!(antipad > widest)) {
    const byPads = widest > drilled
    const obstacle = byPads ? 'the pads kept on the layers it passes' : 'its drilled hole'
    notes.error([...path, 'antipad'], {
      found: print(antipad),
      allowed: `more than ${print(widest)}${byPads ? ', or unconnected_inner_pads: removed' : ''}`,
      message: `The antipad of via "${text.name}", ${print(antipad)}, is not larger than ${obstacle}, ${print(widest)}: planes would be shorted.`,
    })
  }
  return antipad
}

function assumedAntipad(
  text: ViaText,
  { path, drilled, padDiameters, capability }: AntipadPlace,
  notes: Notes,
): Metres {
  const { padOverDrill, antipadOverDrill } = capability.holes
  const value = Math.max(
    drilled + antipadOverDrill,
    Math.max(...padDiameters) + antipadOverDrill - padOverDrill,
  )
  const source = `drilled diameter plus what class ${capability.name} needs: ${capability.sources['antipad_over_drill'] ?? capability.source}`
  notes.assume(
    [...path, 'antipad'],
    `antipad of via "${text.name}"`,
    formatLength(value, notes.context.displayUnit),
    source,
  )
  return value
}
