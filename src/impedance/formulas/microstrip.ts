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
import type { Region } from './claim.ts'
import { MEASURED_BOX, microstripSection, singleMode, WIDER_BOX } from './microstripSection.ts'
import { isBareMicrostrip } from './structures.ts'

const BOX: Region['limits'] = [...MEASURED_BOX, { quantity: 'relative permittivity', min: 2, max: 7 }]

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
      { limits: BOX },
      {
        limits: [...WIDER_BOX, { quantity: 'relative permittivity', min: 1.5, max: 12 }],
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
    regions: [{ limits: BOX }],
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
      },
      { limits: BOX },
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
      },
      { limits: BOX },
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
