import type { CoveredLine } from '../closedForm/coveredLine.ts'
import type { LineConstants } from '../closedForm/lineConstants.ts'
import { LIMITS as FILLING_LIMITS, microstripCoatFilling } from '../closedForm/microstripCoatFilling.ts'
import { microstripCoverExponential } from '../closedForm/microstripCoverExponential.ts'
import { microstripSvacina } from '../closedForm/microstripSvacina.ts'
import { surfaceEquivalentWidth } from '../closedForm/trapezoidWidth.ts'
import type { Formula } from '../estimate.ts'
import { bindFormula, type Binding } from './bindFormula.ts'
import type { Region } from './claim.ts'
import { COVER_EXPONENTIAL, COVER_FILLING, SVACINA } from './coverForms.ts'
import { coatedSection } from './coverSection.ts'
import { MEASURED_BOX, singleMode, WIDER_BOX } from './microstripSection.ts'
import { isCoatedMicrostrip } from './structures.ts'

const BOX: Region['limits'] = [
  ...MEASURED_BOX,
  { quantity: 'coat thickness/height', min: 0.03, max: 0.8 },
  { quantity: 'relative permittivity', min: 2.8, max: 5 },
  { quantity: 'coat permittivity', min: 2.8, max: 4.5 },
]

/** Closed forms for a single trace on the surface under solder mask, without ground beside it. */
export const COATED_MICROSTRIP: readonly Formula[] = [
  bindFormula({
    id: 'microstrip-coat-filling',
    title: 'Hammerstad and Jensen, filled by the coat',
    ...COVER_FILLING,
    limits: FILLING_LIMITS,
    regions: [
      { limits: FILLING_LIMITS },
      { limits: BOX },
      {
        limits: [
          ...WIDER_BOX,
          { quantity: 'coat thickness/height', min: 0.02, max: 2 },
          { quantity: 'relative permittivity', min: 2.2, max: 8 },
          { quantity: 'coat permittivity', min: 2, max: 6 },
        ],
      },
    ],
    applies: isCoatedMicrostrip,
    solve: by(microstripCoatFilling),
  }),
  bindFormula({
    id: 'microstrip-coat-svacina',
    ...SVACINA,
    regions: [{ limits: BOX }],
    applies: isCoatedMicrostrip,
    solve: by(microstripSvacina),
  }),
  bindFormula({
    id: 'microstrip-coat-exponential',
    ...COVER_EXPONENTIAL,
    regions: [{ limits: BOX }],
    applies: isCoatedMicrostrip,
    solve: by(microstripCoverExponential),
  }),
]

function by(kernel: (line: CoveredLine) => LineConstants): Binding['solve'] {
  return (section, frequency) => {
    const { mask, trace } = section
    if (mask === null) throw new RangeError('a coated line needs a mask')
    const width = surfaceEquivalentWidth({ foot: trace.width, top: trace.topWidth })
    const { line, values, added } = coatedSection(section, mask, width, frequency)
    return { modes: singleMode(kernel(line)), values, added }
  }
}
