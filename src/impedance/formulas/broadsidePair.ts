import type { CrossSection } from '../../section/crossSection.ts'
import type { Hertz } from '../../units/quantity.ts'
import { broadsidePairLayered } from '../closedForm/broadsidePairLayered.ts'
import { LIMITS } from '../closedForm/broadsidePairThick.ts'
import type { Formula } from '../estimate.ts'
import { contrastOf, narrowingError, sheetsError } from './addedErrors.ts'
import { bindFormula, type Solution } from './bindFormula.ts'
import { pairModes } from './pairSection.ts'
import { hasGroundBeside, isBroadsidePair } from './pairStructures.ts'
import { sheetStack } from './sheetStack.ts'

const SOURCE =
  'own construction, this project; base forms S. B. Cohn, "Characteristic impedances of broadside-coupled strip transmission lines", IRE Trans. MTT-8, 1960, 633–637; H. A. Wheeler, IEEE Trans. MTT-26, 1978, 866–876'

/** Per excess of the contrast over 1, and of the plane-distance ratio over 1. */
const CONTRAST = 0.03
const UNLIKE_DISTANCES = 0.02
/** Ground beside the pair is left out; it lowers the impedance, the more the nearer it is. */
const SIDE_GROUND = 0.15

/** Closed form for a pair face to face between two planes. Ground beside it is not accounted for, and widens the band. */
export const BROADSIDE_PAIR: readonly Formula[] = [
  bindFormula({
    id: 'broadside-pair-thick',
    title: 'Cohn, thickness by the offset strip over a virtual ground',
    source: SOURCE,
    ownFit: true,
    limits: [...LIMITS, { quantity: 'ground beside the pair', min: 0, max: 0 }],
    regions: [
      {
        limits: LIMITS,
      },
    ],
    applies: isBroadsidePair,
    solve,
  }),
]

function solve(section: CrossSection, frequency: Hertz): Solution {
  const { broadside, trace, below, above, coplanarGap } = section
  if (broadside === null) throw new RangeError('a broadside pair needs a second layer')
  const { thickness } = trace
  // Narrowed towards one strip on one side and away from it on the other: the mean width serves both.
  const width = (trace.width + trace.topWidth) / 2
  const between = sheetStack(broadside.sheets, width, frequency)
  const [lower, upper] = [sheetStack(below, width, frequency), sheetStack(above, width, frequency)]
  const near = Math.min(lower.thickness, upper.thickness)
  const ratio = Math.max(lower.thickness, upper.thickness) / near
  const contrast = contrastOf([lower, upper, between].map((stack) => stack.relativePermittivity))
  const modes = broadsidePairLayered({
    ...{ width, thickness, separation: between.thickness, permittivityBetween: between.relativePermittivity },
    sides: [
      {
        toPlane: lower.thickness,
        relativePermittivity: lower.relativePermittivity,
        bodyIn: trace.foot === 'below' ? 'between' : 'outer',
      },
      {
        toPlane: upper.thickness,
        relativePermittivity: upper.relativePermittivity,
        bodyIn: trace.foot === 'below' ? 'outer' : 'between',
      },
    ],
  })
  return {
    modes: pairModes(modes),
    values: {
      'width/separation': width / between.thickness,
      'thickness/separation': thickness / between.thickness,
      'ground beside the pair': coplanarGap === null ? 0 : 1,
    },
    added: [
      narrowingError(trace),
      ...[below, broadside.sheets, above].map((sheets) => sheetsError(sheets, frequency)),
      { error: CONTRAST * (contrast - 1), cause: 'plus several dielectrics' },
      { error: UNLIKE_DISTANCES * (ratio - 1), cause: 'plus unlike distances to the planes' },
      {
        error: hasGroundBeside(section) ? SIDE_GROUND : 0,
        cause: 'plus ground beside the pair, which the form leaves out',
      },
    ],
  }
}
