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
import type { Region } from './claim.ts'
import { COVER_EXPONENTIAL, COVER_FILLING, SVACINA } from './coverForms.ts'
import { embeddedSection, type EmbeddedSection } from './coverSection.ts'
import { MEASURED_BOX, singleMode, WIDER_BOX } from './microstripSection.ts'
import { isEmbeddedMicrostrip } from './structures.ts'

const BOX: Region['limits'] = [
  ...MEASURED_BOX,
  { quantity: 'cover/height', min: 0.05, max: 6 },
  { quantity: 'relative permittivity', min: 2.8, max: 5 },
  { quantity: 'cover permittivity', min: 2.8, max: 5 },
]

/** Closed forms for a single trace under dielectric with one plane, without ground beside it. */
export const EMBEDDED_MICROSTRIP: readonly Formula[] = [
  bindFormula({
    id: 'embedded-cover-filling',
    title: 'Hammerstad and Jensen, filled by the cover',
    ...COVER_FILLING,
    limits: FILLING_LIMITS,
    regions: [
      { limits: FILLING_LIMITS },
      { limits: BOX },
      {
        limits: [
          ...WIDER_BOX,
          { quantity: 'cover/height', min: 0.02, max: 10 },
          { quantity: 'relative permittivity', min: 2.2, max: 8 },
          { quantity: 'cover permittivity', min: 2, max: 6 },
        ],
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
      },
      { limits: BOX },
    ],
    applies: isEmbeddedMicrostrip,
    solve: by(({ asOne }) => microstripEmbeddedExponential(asOne)),
  }),
  bindFormula({
    id: 'embedded-cover-exponential',
    ...COVER_EXPONENTIAL,
    regions: [{ limits: BOX }],
    applies: isEmbeddedMicrostrip,
    solve: by(({ asOne }) => microstripCoverExponential(asOne)),
  }),
  bindFormula({
    id: 'embedded-svacina',
    ...SVACINA,
    regions: [{ limits: BOX }],
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
