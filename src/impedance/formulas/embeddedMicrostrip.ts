import type { LineConstants } from '../closedForm/lineConstants.ts'
import { microstripCoverExponential } from '../closedForm/microstripCoverExponential.ts'
import {
  LIMITS as BURIED_LIMITS,
  microstripEmbeddedExponential,
} from '../closedForm/microstripEmbeddedExponential.ts'
import {
  LIMITS as FILLING_LIMITS,
  microstripFlatCoverFilling,
} from '../closedForm/microstripFlatCoverFilling.ts'
import { microstripSvacina } from '../closedForm/microstripSvacina.ts'
import { embeddedEquivalentWidth } from '../closedForm/trapezoidWidth.ts'
import type { Formula } from '../estimate.ts'
import { bindFormula, type Binding } from './bindFormula.ts'
import type { ClaimedRegion } from './claim.ts'
import { COVER_EXPONENTIAL, COVER_FILLING, SVACINA } from './coverForms.ts'
import { embeddedSection, type EmbeddedSection } from './coverSection.ts'
import { MEASURED_BOX, singleMode, WIDER_BOX } from './microstripSection.ts'
import { isEmbeddedMicrostrip } from './structures.ts'

const BOX: ClaimedRegion['limits'] = [
  ...MEASURED_BOX,
  { quantity: 'cover/height', min: 0.05, max: 6 },
  { quantity: 'relative permittivity', min: 2.8, max: 5 },
  { quantity: 'cover permittivity', min: 2.8, max: 5 },
]
const MEASURED =
  'worst of 1700 lines against a boundary-element solution, w/h 0.15–6, cover/h 0.05–6, εr 2.8–5'

/** Closed forms for a single trace under dielectric with one plane, without ground beside it. */
export const EMBEDDED_MICROSTRIP: readonly Formula[] = [
  bindFormula({
    id: 'embedded-cover-filling',
    title: 'Hammerstad and Jensen, filled by the cover',
    ...COVER_FILLING,
    limits: FILLING_LIMITS,
    regions: [
      { limits: FILLING_LIMITS, error: 0.009, basis: `${MEASURED}, those in the box of the fit` },
      { limits: BOX, error: 0.012, basis: MEASURED },
      {
        limits: [
          ...WIDER_BOX,
          { quantity: 'cover/height', min: 0.02, max: 10 },
          { quantity: 'relative permittivity', min: 2.2, max: 8 },
          { quantity: 'cover permittivity', min: 2, max: 6 },
        ],
        error: 0.025,
        basis: 'worst of 200 lines against a boundary-element solution, w/h 0.05–20, cover/h 0.02–10, εr 2–8',
      },
    ],
    applies: isEmbeddedMicrostrip,
    solve: by(({ line }) => microstripFlatCoverFilling(line)),
  }),
  bindFormula({
    id: 'embedded-buried-exponential',
    title: 'Exponential of the dielectric height',
    source:
      'IPC-2141; H. Johnson, M. Graham, High-Speed Digital Design, 1993; air line E. Hammerstad, O. Jensen, 1980',
    ownFit: false,
    limits: BURIED_LIMITS,
    regions: [
      {
        limits: [...BOX, { quantity: 'permittivity contrast', min: 1, max: 1.01 }],
        error: 0.05,
        basis: `${MEASURED}, those of one material`,
      },
      { limits: BOX, error: 0.12, basis: MEASURED },
    ],
    applies: isEmbeddedMicrostrip,
    solve: by(({ asOne }) => microstripEmbeddedExponential(asOne)),
  }),
  bindFormula({
    id: 'embedded-cover-exponential',
    ...COVER_EXPONENTIAL,
    regions: [{ limits: BOX, error: 0.13, basis: MEASURED }],
    applies: isEmbeddedMicrostrip,
    solve: by(({ asOne }) => microstripCoverExponential(asOne)),
  }),
  bindFormula({
    id: 'embedded-svacina',
    ...SVACINA,
    regions: [{ limits: BOX, error: 0.09, basis: MEASURED }],
    applies: isEmbeddedMicrostrip,
    solve: by(({ asOne }) => microstripSvacina(asOne)),
  }),
]

function by(kernel: (prepared: EmbeddedSection) => LineConstants): Binding['solve'] {
  return (section, frequency) => {
    const { width: foot, topWidth: top, foot: side } = section.trace
    const prepared = embeddedSection(section, embeddedEquivalentWidth({ foot, top }, side), frequency)
    return { modes: singleMode(kernel(prepared)), values: prepared.values, added: prepared.added }
  }
}
