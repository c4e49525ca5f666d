import type { CoveredLine } from '../closedForm/coveredLine.ts'
import type { LineConstants } from '../closedForm/lineConstants.ts'
import { LIMITS as FILLING_LIMITS, microstripCoatFilling } from '../closedForm/microstripCoatFilling.ts'
import {
  LIMITS as EXPONENTIAL_LIMITS,
  microstripCoverExponential,
} from '../closedForm/microstripCoverExponential.ts'
import { LIMITS as SVACINA_LIMITS, microstripSvacina } from '../closedForm/microstripSvacina.ts'
import { surfaceEquivalentWidth } from '../closedForm/trapezoidWidth.ts'
import type { Formula } from '../estimate.ts'
import { bindFormula, type Binding } from './bindFormula.ts'
import type { ClaimedRegion } from './claim.ts'
import { coatedSection } from './coverSection.ts'
import { MEASURED_BOX, singleMode, WIDER_BOX } from './microstripSection.ts'
import { isCoatedMicrostrip } from './structures.ts'

const BOX: ClaimedRegion['limits'] = [
  ...MEASURED_BOX,
  { quantity: 'coat thickness/height', min: 0.03, max: 0.8 },
  { quantity: 'relative permittivity', min: 2.8, max: 5 },
  { quantity: 'coat permittivity', min: 2.8, max: 4.5 },
]
const MEASURED =
  'worst of 850 lines against a boundary-element solution, w/h 0.15–6, coat/h 0.03–0.8, εr 2.8–5'

/** Closed forms for a single trace on the surface under solder mask, without ground beside it. */
export const COATED_MICROSTRIP: readonly Formula[] = [
  bindFormula({
    id: 'microstrip-coat-filling',
    title: 'Hammerstad and Jensen, filled by the coat',
    source:
      'own fit, this project; base line E. Hammerstad, O. Jensen, IEEE MTT-S Int. Microwave Symp. Digest, 1980, 407–409',
    ownFit: true,
    limits: FILLING_LIMITS,
    regions: [
      { limits: FILLING_LIMITS, error: 0.012, basis: `${MEASURED}, those in the box of the fit` },
      { limits: BOX, error: 0.03, basis: MEASURED },
      {
        limits: [
          ...WIDER_BOX,
          { quantity: 'coat thickness/height', min: 0.02, max: 2 },
          { quantity: 'relative permittivity', min: 2.2, max: 8 },
          { quantity: 'coat permittivity', min: 2, max: 6 },
        ],
        error: 0.055,
        basis: 'worst of 200 lines against a boundary-element solution, w/h 0.05–20, coat/h 0.02–2, εr 2–8',
      },
    ],
    applies: isCoatedMicrostrip,
    solve: by(microstripCoatFilling),
  }),
  bindFormula({
    id: 'microstrip-coat-svacina',
    title: 'Svacina, wide strip under a flat cover',
    source:
      'J. Svacina, "Analysis of multilayer microstrip lines by a conformal mapping method", IEEE Trans. MTT-40, 1992, 769–772; air line E. Hammerstad, O. Jensen, 1980',
    ownFit: false,
    limits: SVACINA_LIMITS,
    regions: [{ limits: BOX, error: 0.06, basis: MEASURED }],
    applies: isCoatedMicrostrip,
    solve: by(microstripSvacina),
  }),
  bindFormula({
    id: 'microstrip-coat-exponential',
    title: 'One exponential towards the buried line',
    source: 'unattributed, common in application notes; air line E. Hammerstad, O. Jensen, 1980',
    ownFit: false,
    limits: EXPONENTIAL_LIMITS,
    regions: [{ limits: BOX, error: 0.11, basis: MEASURED }],
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
