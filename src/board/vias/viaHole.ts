import { formatLength } from '../../units/format.ts'
import { referenceValue } from '../referenceValue.ts'
import type { Metres } from '../../units/quantity.ts'
import type { Path } from '../document/path.ts'
import type { Notes } from '../notes.ts'
import type { ViaText } from '../schema/viaSchema.ts'
import type { ViaType } from '../vias.ts'

/** Copper on the wall of a hole where the description does not say. */
const WALL_PLATING = { value: '25 um', source: 'average of IPC-6012 class 3 for drilled holes, from memory' }
const MICROVIA_PLATING = { value: '12 um', source: 'IPC-6012 for microvias, from memory' }

export type Hole = Pick<ViaType, 'drilledDiameter' | 'finishedDiameter' | 'stated'>

/** Drilled and finished diameter, one from the other by the plating on the wall. Null with an error noted. */
export function viaHole(text: ViaText, path: Path, notes: Notes): Hole | null {
  const { drilled, finished } = text
  if (drilled === undefined && finished === undefined) {
    notes.error([...path, 'drilled'], {
      found: 'missing',
      allowed: 'drilled or finished diameter of the hole',
      message: `Via "${text.name}" gives neither the drilled nor the finished diameter of its hole.`,
    })
    return null
  }
  if (drilled !== undefined && finished !== undefined) return bothStated(drilled, finished, text, path, notes)
  const plating = text.plating ?? assumedPlating(text, path, notes)
  const hole =
    drilled === undefined
      ? {
          drilledDiameter: (finished ?? 0) + 2 * plating,
          finishedDiameter: finished ?? 0,
          stated: 'finished' as const,
        }
      : { drilledDiameter: drilled, finishedDiameter: drilled - 2 * plating, stated: 'drilled' as const }
  if (hole.finishedDiameter > 0) return hole
  // A small hole that is filled with copper has no finished diameter to speak of.
  if (text.filled === true) return { ...hole, finishedDiameter: 0 }
  const print = (value: Metres): string => formatLength(value, notes.context.displayUnit)
  notes.error([...path, text.plating === undefined ? 'drilled' : 'plating'], {
    found: `a hole of ${print(hole.drilledDiameter)} with ${print(plating)} of copper on its wall`,
    allowed: 'a hole that plating does not close, or filled: true',
    message: `Plating of ${print(plating)} closes the hole of via "${text.name}", drilled ${print(hole.drilledDiameter)}; give a thinner plating or filled: true.`,
  })
  return null
}

function bothStated(drilled: Metres, finished: Metres, text: ViaText, path: Path, notes: Notes): Hole | null {
  const print = (value: Metres): string => formatLength(value, notes.context.displayUnit)
  if (!(finished < drilled)) {
    notes.error([...path, 'finished'], {
      found: print(finished),
      allowed: `less than the drilled diameter, ${print(drilled)}`,
      message: `Via "${text.name}" is finished at ${print(finished)} but drilled at only ${print(drilled)}; plating makes a hole smaller.`,
    })
    return null
  }
  if (text.plating !== undefined && Math.abs(drilled - finished - 2 * text.plating) > SAME) {
    notes.error([...path, 'plating'], {
      found: print(text.plating),
      allowed: `half of drilled less finished, ${print((drilled - finished) / 2)}, or no plating`,
      message: `Via "${text.name}": drilled ${print(drilled)}, finished ${print(finished)} and plating ${print(text.plating)} do not agree.`,
    })
    return null
  }
  return { drilledDiameter: drilled, finishedDiameter: finished, stated: 'both' }
}

/** Lengths that differ by less are the same: half a micrometre. */
const SAME: Metres = referenceValue('0.5 um', 'length')

function assumedPlating(text: ViaText, path: Path, notes: Notes): Metres {
  const { value, source } = text.kind === 'microvia' ? MICROVIA_PLATING : WALL_PLATING
  const plating = referenceValue(value, 'length')
  const shown = formatLength(plating, notes.context.displayUnit)
  notes.assume([...path, 'plating'], `plating on the wall of via "${text.name}"`, shown, source)
  return plating
}
