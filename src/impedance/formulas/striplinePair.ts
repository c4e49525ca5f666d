import type { Ratio } from '../../units/quantity.ts'
import { coplanarStripline } from '../closedForm/coplanarStripline.ts'
import { offsetPairParallelHalves } from '../closedForm/offsetPairParallelHalves.ts'
import { LIMITS as THICK_LIMITS } from '../closedForm/offsetPairThick.ts'
import type { PairConstants } from '../closedForm/pairConstants.ts'
import { pairBesideGround } from '../closedForm/pairBesideGround.ts'
import type { CentredStriplinePair, PairImpedances } from '../closedForm/striplinePair.ts'
import { LIMITS as COHN_LIMITS, striplinePairCohn } from '../closedForm/striplinePairCohn.ts'
import { twoDielectricPair, type TwoDielectricPair } from '../closedForm/twoDielectricPair.ts'
import { twoDielectricSideWalls } from '../closedForm/twoDielectricSideWalls.ts'
import type { Formula } from '../estimate.ts'
import { bindFormula, type Binding } from './bindFormula.ts'
import type { AddedError, Region } from './claim.ts'
import { equivalentGaps, gapValues, pairModes } from './pairSection.ts'
import { hasGroundBeside, isStriplinePair } from './pairStructures.ts'
import { striplineOutline, striplineSection } from './striplineSection.ts'

/** Above this distance ratio Cohn's pair, which is midway, is not offered. */
const NEARLY_CENTRED = 1.2
/** Per squared excess of the distance ratio over 1, as for the single strip. */
const OFF_CENTRE = 0.25
/** Per excess of the permittivity contrast over 1: worst of 500 pairs in two dielectrics, rounded up. */
const CONTRAST = 0.016

const COHN = 'S. B. Cohn, "Shielded coupled-strip transmission line", IRE Trans. MTT-3, 1955, 29–38'
const WHEELER = 'H. A. Wheeler, IEEE Trans. MTT-26, 1978, 866–876'
const OWN = `own fit, this project; base forms ${COHN}; ${WHEELER}`
const GROUNDS = 'ground beside the pair taken as infinitely wide'

const BOX: Region['limits'] = [
  { quantity: 'width/near distance', min: 0.2, max: 6 },
  { quantity: 'gap/near distance', min: 0.2, max: 12 },
  { quantity: 'thickness/gap', min: 0, max: 0.8 },
  { quantity: 'thickness/width', min: 0, max: 0.8 },
]

function upToRatio(max: number): Region {
  return {
    limits: [...BOX, { quantity: 'distance ratio', min: 1, max }],
  }
}

/** Closed forms for an edge-coupled pair between two planes, with or without ground beside it. */
export const STRIPLINE_PAIR: readonly Formula[] = [
  bindFormula({
    id: 'stripline-pair-side-walls',
    title: 'Exact thin pair, widened, side walls as plates',
    source: OWN,
    ownFit: true,
    limits: THICK_LIMITS,
    regions: [upToRatio(2), upToRatio(4), upToRatio(5)],
    applies: (section) => isStriplinePair(section) && !hasGroundBeside(section),
    solve: by(twoDielectricPair),
  }),
  bindFormula({
    id: 'stripline-pair-parallel-halves',
    title: 'Two half pairs in parallel, odd mode the lower of Cohn’s',
    source: OWN,
    ownFit: true,
    limits: THICK_LIMITS,
    regions: [upToRatio(2), upToRatio(4), upToRatio(5)],
    applies: (section) => isStriplinePair(section) && !hasGroundBeside(section),
    solve: by((pair) =>
      inMeanPermittivity(pair, offsetPairParallelHalves({ ...pair, relativePermittivity: 1 })),
    ),
  }),
  bindFormula({
    id: 'stripline-pair-cohn',
    title: 'Cohn, thick pair midway',
    source: `${COHN}; single strip by ${WHEELER}`,
    ownFit: false,
    limits: COHN_LIMITS,
    regions: [
      {
        limits: [...BOX, { quantity: 'width/(spacing - thickness)', min: 0.35, max: 10 }],
      },
      { limits: BOX },
    ],
    applies: (section) =>
      isStriplinePair(section) &&
      !hasGroundBeside(section) &&
      striplineOutline(section).distanceRatio <= NEARLY_CENTRED,
    solve: by(
      (pair) => inMeanPermittivity(pair, striplinePairCohn(midway(pair))),
      (ratio) => [
        { error: OFF_CENTRE * (ratio - 1) ** 2, cause: 'plus a pair not quite midway taken as midway' },
      ],
    ),
  }),
  bindFormula({
    id: 'stripline-pair-beside-ground',
    title: 'Exact thin pair, widened, side walls as plates, ground beside the pair added',
    source: `${OWN}; ground by G. Ghione, C. Naldi, IEEE Trans. MTT-35, 1987, 260–267`,
    ownFit: true,
    limits: THICK_LIMITS,
    regions: [
      {
        limits: [
          ...BOX,
          { quantity: 'distance ratio', min: 1, max: 5 },
          { quantity: 'coplanar gap/near distance', min: 0.2, max: 6 },
          { quantity: 'thickness/coplanar gap', min: 0, max: 0.8 },
        ],
        note: GROUNDS,
      },
    ],
    applies: (section) => isStriplinePair(section) && hasGroundBeside(section),
    solve: by(twoDielectricPair),
  }),
]

function by(
  kernel: (pair: TwoDielectricPair) => PairConstants,
  more: (distanceRatio: Ratio) => readonly AddedError[] = () => [],
): Binding['solve'] {
  return (section, frequency) => {
    const { line, contrast, values, added } = striplineSection(section, frequency)
    const gaps = equivalentGaps(section, line.width)
    const near = Math.min(line.below, line.above)
    const pair = kernel({ ...line, gap: gaps.gap })
    const { coplanarGap } = gaps
    const modes =
      coplanarGap === null
        ? pair
        : pairBesideGround(pair, {
            alone: twoDielectricSideWalls(line),
            besideGround: coplanarStripline({ ...line, gap: coplanarGap }),
            widthToPlane: line.width / near,
          })
    return {
      modes: pairModes(modes),
      values: { ...values, ...gapValues(gaps, near, line.thickness, 'near distance') },
      added: [
        ...added,
        ...more(Math.max(line.below, line.above) / near),
        { error: CONTRAST * (contrast - 1), cause: 'plus two dielectrics' },
      ],
    }
  }
}

/** The pair midway between the same planes, in air. */
function midway(pair: TwoDielectricPair): CentredStriplinePair {
  const { width, thickness, gap, below, above } = pair
  return { width, thickness, gap, spacing: below + thickness + above, relativePermittivity: 1 }
}

/** Impedances in air, with the permittivities that the two dielectrics make. */
function inMeanPermittivity(pair: TwoDielectricPair, air: PairImpedances): PairConstants {
  const { even, odd } = twoDielectricPair(pair)
  const mode = (impedance: number, effectivePermittivity: Ratio): PairConstants['even'] => ({
    impedance: impedance / Math.sqrt(effectivePermittivity),
    effectivePermittivity,
  })
  return { even: mode(air.even, even.effectivePermittivity), odd: mode(air.odd, odd.effectivePermittivity) }
}
