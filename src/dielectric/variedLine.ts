import type { Stackup } from '../board/stackup.ts'
import type { Estimate } from '../impedance/estimate.ts'
import { chosenEstimate, closedFormNear } from '../impedance/estimateLine.ts'
import { coarseField } from '../impedance/fieldEstimate.ts'
import { permittivityIn } from '../impedance/permittivityIn.ts'
import { physicsKey } from '../impedance/physicsKey.ts'
import { BoundedMemory } from '../numerics/boundedMemory.ts'
import { ifSolvable } from '../numerics/ifSolvable.ts'
import type { CrossSection, LineRequest } from '../section/crossSection.ts'
import { deriveSection } from '../section/deriveSection.ts'
import type { Hertz, Metres } from '../units/quantity.ts'
import { withThickness } from './withThickness.ts'

/** A trace over the thickness of one dielectric: what its best closed form says, and the method that the verdict would use. */
export interface VariedLine {
  readonly closedForm: (thickness: Metres) => Estimate
  readonly best: (thickness: Metres) => Estimate
  /** A coarse field solution, for how the closed form errs from place to place; null where there is none. */
  readonly coarse: (thickness: Metres) => Estimate | null
}

interface Varied {
  readonly stackup: Stackup
  readonly request: LineRequest
  readonly frequency: Hertz
  /** The dielectric next to the trace that is varied. */
  readonly dielectric: string
}

/**
 * Of a trace whose section at the present thickness is `section`. Traces with equal sections share it, whatever their
 * targets: a sample is asked for once.
 *
 * Throws RangeError as `estimateLine` does; what it gives throws that and as `deriveSection` does.
 */
export function variedLine(of: Varied, section: CrossSection): VariedLine {
  const { stackup, request, frequency, dielectric } = of
  const side = section.below[0]?.name === dielectric ? 'below' : 'above'
  const key = `${physicsKey(section, permittivityIn(frequency))}|${frequency}|${side}`
  return varied.recall(key, () => {
    const sectionAt = (thickness: Metres): CrossSection =>
      deriveSection(withThickness(stackup, dielectric, thickness), request)
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
function remembering(value: (thickness: Metres) => Estimate): (thickness: Metres) => Estimate {
  const memory = new Map<Metres, Estimate>()
  return (thickness) => {
    const kept = memory.get(thickness)
    if (kept !== undefined) return kept
    const made = value(thickness)
    memory.set(thickness, made)
    return made
  }
}
