import type { Estimate, Modes } from '../impedance/estimate.ts'
import { chosenEstimate, closedFormNear } from '../impedance/estimateLine.ts'
import { coarseField } from '../impedance/fieldEstimate.ts'
import { permittivityIn } from '../impedance/permittivityIn.ts'
import { physicsKey } from '../impedance/physicsKey.ts'
import { BoundedMemory } from '../numerics/boundedMemory.ts'
import { ifSolvable } from '../numerics/ifSolvable.ts'
import type { CrossSection } from '../section/crossSection.ts'
import { type Side, withSheetThickness } from '../section/withSheetThickness.ts'
import type { Hertz, Metres } from '../units/quantity.ts'

/** A trace over the thickness of one dielectric: what its best closed form says, and the method that the verdict would use. */
export interface VariedLine {
  readonly closedForm: (thickness: Metres) => Modes
  readonly best: (thickness: Metres) => Estimate
  /** A coarse field solution, for how the closed form errs from place to place; null where there is none. */
  readonly coarse: (thickness: Metres) => Estimate | null
}

/**
 * Of a trace whose section at the present thickness is `section`, over the thickness of the dielectric next to it on one
 * side. Traces with equal sections share it, whatever their targets: a sample is asked for once.
 *
 * Throws RangeError as `estimateLine` does; what it gives throws that and as `withSheetThickness` does.
 */
export function variedLine(section: CrossSection, side: Side, frequency: Hertz): VariedLine {
  const key = `${physicsKey(section, permittivityIn(frequency))}|${frequency}|${side}`
  return varied.recall(key, () => {
    const sectionAt = (thickness: Metres): CrossSection => withSheetThickness(section, side, thickness)
    const closedForm = closedFormNear(section, frequency)
    return {
      closedForm: remembering((thickness) => closedForm(sectionAt(thickness))),
      best: (thickness) => chosenEstimate(sectionAt(thickness), frequency),
      coarse: (thickness) => ifSolvable(() => coarseField(sectionAt(thickness), frequency)),
    }
  })
}

const varied = new BoundedMemory<VariedLine>(500)

/** The samples of a curve are asked for again when it is scaled anew. */
function remembering(value: (thickness: Metres) => Modes): (thickness: Metres) => Modes {
  const memory = new Map<Metres, Modes>()
  return (thickness) => {
    const kept = memory.get(thickness)
    if (kept !== undefined) return kept
    const made = value(thickness)
    memory.set(thickness, made)
    return made
  }
}
