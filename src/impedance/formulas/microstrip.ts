import { LIMITS as HAMMERSTAD_LIMITS, microstripHammerstad } from '../closedForm/microstripHammerstad.ts'
import {
  LIMITS as HAMMERSTAD_JENSEN_LIMITS,
  microstripHammerstadJensen,
} from '../closedForm/microstripHammerstadJensen.ts'
import type { LineConstants } from '../closedForm/lineConstants.ts'
import type { MicrostripLine } from '../closedForm/microstripLine.ts'
import { LIMITS as LOG_LIMITS, microstripSimpleLog } from '../closedForm/microstripSimpleLog.ts'
import { LIMITS as WHEELER_LIMITS, microstripWheeler } from '../closedForm/microstripWheeler.ts'
import { surfaceEquivalentWidth } from '../closedForm/trapezoidWidth.ts'
import type { CrossSection } from '../../section/crossSection.ts'
import type { Metres } from '../../units/quantity.ts'
import type { Formula } from '../estimate.ts'
import { bindFormula, type Binding } from './bindFormula.ts'
import type { ClaimedRegion } from './claim.ts'
import { MEASURED_BOX, microstripSection, singleMode, WIDER_BOX } from './microstripSection.ts'
import { isBareMicrostrip } from './structures.ts'

const BOX: ClaimedRegion['limits'] = [...MEASURED_BOX, { quantity: 'relative permittivity', min: 2, max: 7 }]
const MEASURED =
  'worst of 850 lines against a boundary-element solution, w/h 0.15–6, t/h and t/w up to 1, εr 2–7'

/** Closed forms for a single trace on the surface, without mask and without ground beside it. */
export const MICROSTRIP: readonly Formula[] = [
  bindFormula({
    id: 'microstrip-hammerstad-jensen',
    title: 'Hammerstad and Jensen, with thickness',
    source:
      'E. Hammerstad, O. Jensen, "Accurate models for microstrip computer-aided design", IEEE MTT-S Int. Microwave Symp. Digest, 1980, 407–409, eqs. (1)–(9)',
    ownFit: false,
    limits: HAMMERSTAD_JENSEN_LIMITS,
    regions: [
      { limits: BOX, error: 0.0075, basis: `${MEASURED}; the authors state 0.2 % for thin strips` },
      {
        limits: [...WIDER_BOX, { quantity: 'relative permittivity', min: 1.5, max: 12 }],
        error: 0.014,
        basis: 'worst of 200 lines against a boundary-element solution, w/h 0.05–20, t/h up to 2, εr 1.5–12',
      },
    ],
    applies: isBareMicrostrip,
    solve: by(microstripHammerstadJensen),
  }),
  bindFormula({
    id: 'microstrip-wheeler',
    title: 'Wheeler, one formula for every width',
    source:
      'H. A. Wheeler, "Transmission-line properties of a strip on a dielectric sheet on a plane", IEEE Trans. MTT-25, 1977, 631–647',
    ownFit: false,
    limits: WHEELER_LIMITS,
    regions: [{ limits: BOX, error: 0.02, basis: 'stated by the author; measured errors are smaller' }],
    applies: isBareMicrostrip,
    solve: by(microstripWheeler),
  }),
  bindFormula({
    id: 'microstrip-hammerstad',
    title: 'Hammerstad 1975, thickness by Bahl and Garg',
    source:
      'E. O. Hammerstad, "Equations for microstrip circuit design", Proc. 5th European Microwave Conf., 1975, 268–272; I. J. Bahl, R. Garg, Proc. IEEE 65, 1977, 1611–1612',
    ownFit: false,
    limits: HAMMERSTAD_LIMITS,
    regions: [
      {
        limits: [...BOX, { quantity: 'thickness/height', min: 0, max: 0.2 }],
        error: 0.035,
        basis: `${MEASURED}, those with t/h up to 0.2; stated 1 %`,
      },
      { limits: BOX, error: 0.1, basis: `${MEASURED}; stated only for t/h up to 0.2` },
    ],
    applies: (section) => isBareMicrostrip(section) && thicknessIsCorrectable(section),
    solve: by(microstripHammerstad),
  }),
  bindFormula({
    id: 'microstrip-simple-logarithm',
    title: 'Simple logarithm, for comparison only',
    source:
      'H. R. Kaupp, "Characteristics of microstrip transmission lines", IEEE Trans. EC-16, 1967, 185–193; IPC-2141',
    ownFit: false,
    limits: LOG_LIMITS,
    regions: [
      {
        limits: [...BOX, ...LOG_LIMITS],
        error: 0.3,
        basis: `${MEASURED}, inside its quoted range; quoted "about 5 %"`,
      },
      { limits: BOX, error: 1, basis: `${MEASURED}, rounded up to the whole` },
    ],
    applies: (section) => isBareMicrostrip(section) && logarithmIsPositive(section),
    solve: by(microstripSimpleLog),
  }),
]

function by(kernel: (line: MicrostripLine) => LineConstants): Binding['solve'] {
  return (section, frequency) => {
    const width = surfaceEquivalentWidth({ foot: section.trace.width, top: section.trace.topWidth })
    const { line, values, added } = microstripSection(section, width, frequency)
    return { modes: singleMode(kernel(line)), values, added }
  }
}

/** (t/h)/√(w/h) below 2, a little less than what takes the permittivity of Bahl and Garg below 1. */
function thicknessIsCorrectable(section: CrossSection): boolean {
  const { topWidth, thickness } = section.trace
  const height = heightOf(section)
  return thickness / height < 2 * Math.sqrt(topWidth / height)
}

function heightOf(section: CrossSection): Metres {
  return section.below.reduce<Metres>((sum, sheet) => sum + sheet.thickness, 0)
}

/** With a margin of 5 %, so that the equivalent width cannot cross it. */
function logarithmIsPositive(section: CrossSection): boolean {
  return 0.8 * section.trace.width + section.trace.thickness < 0.95 * 5.98 * heightOf(section)
}
