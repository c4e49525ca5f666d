import type { CrossSection } from '../../section/crossSection.ts'
import type { Hertz } from '../../units/quantity.ts'
import { coplanarCoated } from '../closedForm/coplanarCoated.ts'
import { coplanarEmbedded } from '../closedForm/coplanarEmbedded.ts'
import { coplanarSideWalls } from '../closedForm/coplanarSideWalls.ts'
import { microstripCoatFilling } from '../closedForm/microstripCoatFilling.ts'
import { microstripFlatCoverFilling } from '../closedForm/microstripFlatCoverFilling.ts'
import { microstripHammerstadJensen } from '../closedForm/microstripHammerstadJensen.ts'
import type { LineConstants } from '../closedForm/lineConstants.ts'
import type { MicrostripPair } from '../closedForm/microstripPair.ts'
import { LIMITS as COATED_LIMITS, microstripPairCoated } from '../closedForm/microstripPairCoated.ts'
import { LIMITS as EMBEDDED_LIMITS, microstripPairEmbedded } from '../closedForm/microstripPairEmbedded.ts'
import {
  LIMITS as HAMMERSTAD_JENSEN_LIMITS,
  microstripPairHammerstadJensen,
} from '../closedForm/microstripPairHammerstadJensen.ts'
import {
  LIMITS as KIRSCHNING_JANSEN_LIMITS,
  microstripPairKirschningJansen,
} from '../closedForm/microstripPairKirschningJansen.ts'
import { LIMITS as THICK_LIMITS, microstripPairThick } from '../closedForm/microstripPairThick.ts'
import {
  LIMITS as JANSEN_LIMITS,
  microstripPairThicknessJansen,
} from '../closedForm/microstripPairThicknessJansen.ts'
import { pairBesideGround } from '../closedForm/pairBesideGround.ts'
import type { PairConstants } from '../closedForm/pairConstants.ts'
import { embeddedEquivalentWidth, surfaceEquivalentWidth } from '../closedForm/trapezoidWidth.ts'
import type { Formula } from '../estimate.ts'
import { bindFormula, type Binding, type Solution } from './bindFormula.ts'
import type { Region } from './claim.ts'
import { coatedSection, embeddedSection } from './coverSection.ts'
import { microstripSection, type MicrostripSection } from './microstripSection.ts'
import { equivalentGaps, gapValues, pairModes, type EquivalentGaps } from './pairSection.ts'
import { hasGroundBeside, isBarePair, isCoatedPair, isEmbeddedPair } from './pairStructures.ts'

const KIRSCHNING_JANSEN =
  'M. Kirschning, R. H. Jansen, "Accurate wide-range design equations for the frequency-dependent characteristic of parallel coupled microstrip lines", IEEE Trans. MTT-32, 1984, 83–90, static equations'
const OWN = `own fit, this project; base form ${KIRSCHNING_JANSEN}`
const GROUNDS = 'ground beside the pair taken as infinitely wide'

const BOX: Region['limits'] = [
  { quantity: 'width/height', min: 0.2, max: 5 },
  { quantity: 'gap/height', min: 0.2, max: 10 },
  { quantity: 'thickness/gap', min: 0, max: 0.8 },
  { quantity: 'relative permittivity', min: 2.9, max: 4.8 },
]
const COATED_BOX: Region['limits'] = [
  ...BOX,
  { quantity: 'coat thickness/height', min: 0.03, max: 0.7 },
  { quantity: 'coat permittivity', min: 3, max: 4.2 },
]
const EMBEDDED_BOX: Region['limits'] = [
  ...BOX,
  { quantity: 'cover/height', min: 0.1, max: 6 },
  { quantity: 'cover permittivity', min: 3, max: 4.5 },
]

function besideGround(region: Region['limits']): Region['limits'] {
  return [
    ...region,
    { quantity: 'coplanar gap/height', min: 0.2, max: 6 },
    { quantity: 'thickness/coplanar gap', min: 0, max: 0.8 },
  ]
}

/** Closed forms for an edge-coupled pair with one plane, bare, coated or embedded, with or without ground beside it. */
export const MICROSTRIP_PAIR: readonly Formula[] = [
  bindFormula({
    id: 'microstrip-pair-side-walls',
    title: 'Kirschning and Jansen, side walls as plates',
    source: OWN,
    ownFit: true,
    limits: THICK_LIMITS,
    regions: [{ limits: BOX }],
    applies: (section) => isBarePair(section) && !hasGroundBeside(section),
    solve: bare(microstripPairThick),
  }),
  bindFormula({
    id: 'microstrip-pair-equivalent-widths',
    title: 'Kirschning and Jansen, thickness by equivalent widths',
    source: `${KIRSCHNING_JANSEN}; R. H. Jansen, IEEE Trans. MTT-26, 1978, 75–82`,
    ownFit: false,
    limits: JANSEN_LIMITS,
    regions: [
      {
        limits: BOX,
      },
    ],
    applies: (section) => isBarePair(section) && !hasGroundBeside(section),
    solve: bare(microstripPairThicknessJansen),
  }),
  bindFormula({
    id: 'microstrip-pair-kirschning-jansen',
    title: 'Kirschning and Jansen, thin strips',
    source: KIRSCHNING_JANSEN,
    ownFit: false,
    limits: KIRSCHNING_JANSEN_LIMITS,
    regions: [
      {
        limits: BOX,
      },
    ],
    applies: (section) => isBarePair(section) && !hasGroundBeside(section),
    solve: bare(microstripPairKirschningJansen),
  }),
  bindFormula({
    id: 'microstrip-pair-hammerstad-jensen',
    title: 'Hammerstad and Jensen, thin strips',
    source:
      'E. Hammerstad, O. Jensen, IEEE MTT-S Int. Microwave Symp. Digest, 1980, 407–409, coupled-line equations',
    ownFit: false,
    limits: HAMMERSTAD_JENSEN_LIMITS,
    regions: [
      {
        limits: BOX,
      },
    ],
    applies: (section) => isBarePair(section) && !hasGroundBeside(section),
    solve: bare(microstripPairHammerstadJensen),
  }),
  bindFormula({
    id: 'microstrip-pair-beside-ground',
    title: 'Kirschning and Jansen, side walls as plates, ground beside the pair added',
    source: `${OWN}; ground by G. Ghione, C. Naldi, IEEE Trans. MTT-35, 1987, 260–267`,
    ownFit: true,
    limits: THICK_LIMITS,
    regions: [
      {
        limits: besideGround(BOX),
        note: GROUNDS,
      },
    ],
    applies: (section) => isBarePair(section) && hasGroundBeside(section),
    solve: bare(microstripPairThick),
  }),
  bindFormula({
    id: 'microstrip-pair-coat-filling',
    title: 'Kirschning and Jansen with side walls, filled by the coat',
    source: OWN,
    ownFit: true,
    limits: COATED_LIMITS,
    regions: [
      {
        limits: [...COATED_BOX, { quantity: 'coat thickness/gap', min: 0, max: 0.35 }],
      },
      {
        limits: COATED_BOX,
      },
    ],
    applies: (section) => isCoatedPair(section) && !hasGroundBeside(section),
    solve: coated,
  }),
  bindFormula({
    id: 'microstrip-pair-coat-filling-beside-ground',
    title: 'Kirschning and Jansen with side walls, filled by the coat, ground beside the pair added',
    source: `${OWN}; ground by G. Ghione, C. Naldi, IEEE Trans. MTT-35, 1987, 260–267`,
    ownFit: true,
    limits: COATED_LIMITS,
    regions: [
      {
        limits: besideGround(COATED_BOX),
        note: GROUNDS,
      },
    ],
    applies: (section) => isCoatedPair(section) && hasGroundBeside(section),
    solve: coated,
  }),
  bindFormula({
    id: 'embedded-pair-cover-filling',
    title: 'Kirschning and Jansen with side walls, filled by the cover',
    source: OWN,
    ownFit: true,
    limits: EMBEDDED_LIMITS,
    regions: [
      {
        limits: EMBEDDED_BOX,
      },
    ],
    applies: (section) => isEmbeddedPair(section) && !hasGroundBeside(section),
    solve: embedded,
  }),
  bindFormula({
    id: 'embedded-pair-cover-filling-beside-ground',
    title: 'Kirschning and Jansen with side walls, filled by the cover, ground beside the pair added',
    source: `${OWN}; ground by G. Ghione, C. Naldi, IEEE Trans. MTT-35, 1987, 260–267`,
    ownFit: true,
    limits: EMBEDDED_LIMITS,
    regions: [
      {
        limits: besideGround(EMBEDDED_BOX),
        note: GROUNDS,
      },
    ],
    applies: (section) => isEmbeddedPair(section) && hasGroundBeside(section),
    solve: embedded,
  }),
]

function bare(kernel: (pair: MicrostripPair) => PairConstants): Binding['solve'] {
  return (section, frequency) => {
    const width = surfaceEquivalentWidth({ foot: section.trace.width, top: section.trace.topWidth })
    const prepared = microstripSection(section, width, frequency)
    const { line } = prepared
    const gaps = equivalentGaps(section, width)
    return solution(
      prepared,
      gaps,
      kernel({ ...line, gap: gaps.gap }),
      microstripHammerstadJensen(line),
      (gap) => coplanarSideWalls({ ...line, gap }),
    )
  }
}

function coated(section: CrossSection, frequency: Hertz): Solution {
  if (section.mask === null) throw new RangeError('a coated pair needs a mask')
  const width = surfaceEquivalentWidth({ foot: section.trace.width, top: section.trace.topWidth })
  const prepared = coatedSection(section, section.mask, width, frequency)
  const { line } = prepared
  const gaps = equivalentGaps(section, width)
  const { coverThickness: coatThickness, coverPermittivity: coatPermittivity } = line
  const pair = microstripPairCoated({ ...line, gap: gaps.gap, coatThickness, coatPermittivity })
  const answer = solution(prepared, gaps, pair, microstripCoatFilling(line), (gap) =>
    coplanarCoated({ ...line, gap }),
  )
  return { ...answer, values: { ...answer.values, 'coat thickness/gap': coatThickness / gaps.gap } }
}

function embedded(section: CrossSection, frequency: Hertz): Solution {
  const { width: foot, topWidth: top, foot: side } = section.trace
  const width = embeddedEquivalentWidth({ foot, top }, side)
  const prepared = embeddedSection(section, width, frequency)
  const { line } = prepared
  const gaps = equivalentGaps(section, width)
  const pair = microstripPairEmbedded({ ...line, gap: gaps.gap })
  return solution(prepared, gaps, pair, microstripFlatCoverFilling(line), (gap) =>
    coplanarEmbedded({ ...line, gap }),
  )
}

function solution(
  { line, values, added }: MicrostripSection,
  gaps: EquivalentGaps,
  pair: PairConstants,
  alone: LineConstants,
  withGround: (coplanarGap: number) => LineConstants,
): Solution {
  const { coplanarGap } = gaps
  const modes =
    coplanarGap === null
      ? pair
      : pairBesideGround(pair, {
          alone,
          besideGround: withGround(coplanarGap),
          widthToPlane: line.width / line.height,
        })
  return {
    modes: pairModes(modes),
    values: { ...values, ...gapValues(gaps, line.height, line.thickness, 'height') },
    added,
  }
}
