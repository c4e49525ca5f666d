import type { CrossSection } from '../section/crossSection.ts'
import type { Hertz } from '../units/quantity.ts'
import { surfaceResistance } from './closedForm/skinEffect.ts'
import { permittivityAt } from './closedForm/widebandPermittivity.ts'
import type { LineLoss, Modes } from './estimate.ts'
import { energyShares } from './field/energyShares.ts'
import { resistanceFactors } from './field/resistanceFactors.ts'
import { ifSolvable } from '../numerics/ifSolvable.ts'
import { lossOf, signalMode } from './lineLoss.ts'
import { permittivityIn } from './permittivityIn.ts'

/** Loss is known to a few percent at best, for the roughness of the foil: a coarse solution is fine enough. */
const REFINEMENT = { levels: 1, order: 3 }

/**
 * Loss of a line, or of the odd mode of a pair, from the solved field: conductors by the rule of incremental inductance
 * with every metal face receding, dielectrics by the share of energy in each; roughness and direct current as in
 * `lineLoss`. Takes some ten solutions, so a review uses `lineLoss` instead.
 *
 * Null where the section is too extreme for the field solution.
 */
export function fieldLoss(section: CrossSection, modes: Modes, frequency: Hertz): LineLoss | null {
  return ifSolvable(() => {
    const mode = signalMode(modes)
    const factors = resistanceFactors(section, REFINEMENT)
    const factor = factors.kind === 'single' ? factors.line : factors.odd
    const resistance = surfaceResistance(section.trace.resistivity, frequency) * factor
    const name = modes.kind === 'single' ? 'line' : 'odd'
    const shares = energyShares(section, permittivityIn(frequency), REFINEMENT).map((each) => ({
      share: Math.max(0, each.shares[name] ?? 0),
      lossTangent: permittivityAt(each.dielectric.permittivity, frequency).lossTangent,
    }))
    return lossOf(section, mode, frequency, {
      smooth: resistance / (2 * mode.impedance),
      shares,
      method:
        'incremental inductance of the solved field, Hammerstad roughness, joined with direct current; dielectric by the energy in each sheet',
    })
  })
}
