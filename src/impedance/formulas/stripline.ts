import { LIMITS as EXACT_LIMITS, offsetExactWithThickness } from '../closedForm/offsetExactWithThickness.ts'
import { LIMITS as OWN_LIMITS } from '../closedForm/offsetEquivalentSpacing.ts'
import { LIMITS as HALVES_LIMITS, offsetParallelHalves } from '../closedForm/offsetParallelHalves.ts'
import { NARROW_LIMITS, SEAM, striplineCohn, WIDE_LIMITS } from '../closedForm/striplineCohn.ts'
import { striplineExactWithThickness } from '../closedForm/striplineExactWithThickness.ts'
import type { OffsetStripline } from '../closedForm/offsetStripline.ts'
import type { CentredStripline } from '../closedForm/striplineLine.ts'
import { LIMITS as LOG_LIMITS, striplineSimpleLog } from '../closedForm/striplineSimpleLog.ts'
import { LIMITS as WHEELER_LIMITS, striplineWheeler } from '../closedForm/striplineWheeler.ts'
import {
  LIMITS as WEIGHTED_LIMITS,
  twoDielectricCapacitanceWeighted,
} from '../closedForm/twoDielectricCapacitanceWeighted.ts'
import { twoDielectricSideWalls } from '../closedForm/twoDielectricSideWalls.ts'
import type { CrossSection } from '../../section/crossSection.ts'
import type { Ohms, Ratio } from '../../units/quantity.ts'
import type { Formula } from '../estimate.ts'
import { bindFormula, type Binding, type Solution } from './bindFormula.ts'
import type { AddedError, Region } from './claim.ts'
import { singleMode } from './microstripSection.ts'
import { striplineOutline, striplineSection, type StriplineSection } from './striplineSection.ts'
import { isSingleStripline } from './structures.ts'

/** Above this distance ratio the forms for a strip midway are not offered. */
const NEARLY_CENTRED = 1.2

/** Worst against a boundary-element solution, rounded up: per squared excess of the distance ratio over 1 … */
const OFF_CENTRE = 0.25
/** … and per excess of the permittivity contrast over 1, by the two ways to weigh the dielectrics. */
const SIDE_WALL_CONTRAST = 0.01
const WEIGHTED_CONTRAST = 0.03

/** The box in which the forms were compared with the boundary-element solution. */
function boxOf(thicknessToNear: Ratio): Region['limits'] {
  return [
    { quantity: 'width/near distance', min: 0.1, max: 10 },
    { quantity: 'thickness/near distance', min: 0, max: thicknessToNear },
    { quantity: 'thickness/width', min: 0, max: 1 },
  ]
}

const BOX = boxOf(0.6)
function upToRatio(max: number, thicknessToNear = 0.6): Region {
  return {
    limits: [...boxOf(thicknessToNear), { quantity: 'distance ratio', min: 1, max }],
  }
}

const WHEELER =
  'H. A. Wheeler, "Transmission-line properties of a strip line between parallel planes", IEEE Trans. MTT-26, 1978, 866–876'
const COHN =
  'S. B. Cohn, "Characteristic impedance of the shielded-strip transmission line", IRE Trans. MTT-2, 1954, 52–57'

/** Closed forms for a single trace between two planes, without ground beside it. */
export const STRIPLINE: readonly Formula[] = [
  bindFormula({
    id: 'stripline-exact-equivalent-spacing',
    title: 'Exact strip with thickness in an equivalent plane spacing',
    source: `own fit, this project; base formulas ${COHN}; ${WHEELER}`,
    ownFit: true,
    limits: EXACT_LIMITS,
    regions: [
      upToRatio(2, 1),
      upToRatio(4),
      upToRatio(4, 1),
      upToRatio(12),
      upToRatio(12, 1),
      {
        limits: [
          { quantity: 'width/near distance', min: 0.05, max: 30 },
          { quantity: 'thickness/near distance', min: 0, max: 1.5 },
          { quantity: 'distance ratio', min: 1, max: 40 },
        ],
      },
    ],
    applies: isSingleStripline,
    solve: (section, frequency) => {
      const { line, contrast, values, added } = striplineSection(section, frequency)
      const { effectivePermittivity } = twoDielectricSideWalls(line)
      const air = offsetExactWithThickness({ ...line, relativePermittivity: 1 })
      const modes = singleMode({ impedance: air / Math.sqrt(effectivePermittivity), effectivePermittivity })
      return { modes, values, added: [...added, contrastError(contrast, SIDE_WALL_CONTRAST)] }
    },
  }),
  bindFormula({
    id: 'stripline-equivalent-spacing',
    title: 'Wheeler in an equivalent plane spacing',
    source: `own fit, this project; base formula ${WHEELER}`,
    ownFit: true,
    limits: OWN_LIMITS,
    regions: [upToRatio(2), upToRatio(4), upToRatio(12)],
    applies: isSingleStripline,
    solve: (section, frequency) => {
      const { line, contrast, values, added } = striplineSection(section, frequency)
      const modes = singleMode(twoDielectricSideWalls(line))
      return { modes, values, added: [...added, contrastError(contrast, SIDE_WALL_CONTRAST)] }
    },
  }),
  bindFormula({
    id: 'stripline-capacitance-weighted',
    title: 'Two dielectrics weighted by the capacitance of each half',
    source: `common practice; air line an own fit, this project, on ${WHEELER}`,
    ownFit: true,
    limits: WEIGHTED_LIMITS,
    regions: [upToRatio(2), upToRatio(4), upToRatio(12)],
    applies: (section) => isSingleStripline(section) && hasTwoDielectrics(section),
    solve: (section, frequency) => {
      const { line, contrast, values, added } = striplineSection(section, frequency)
      const modes = singleMode(twoDielectricCapacitanceWeighted(line))
      return { modes, values, added: [...added, contrastError(contrast, WEIGHTED_CONTRAST)] }
    },
  }),
  bindFormula({
    id: 'stripline-wheeler',
    title: 'Wheeler, strip midway',
    source: WHEELER,
    ownFit: false,
    limits: WHEELER_LIMITS,
    regions: [{ limits: BOX }],
    applies: (section) => isSingleStripline(section) && isNearlyCentred(section),
    solve: midway(striplineWheeler),
  }),
  bindFormula({
    id: 'stripline-exact-with-thickness',
    title: 'Exact thin strip times the thickness effect of Wheeler',
    source: `${COHN}; ${WHEELER}; their product: own construction, this project`,
    ownFit: true,
    limits: WHEELER_LIMITS,
    regions: [{ limits: BOX }],
    applies: (section) => isSingleStripline(section) && isNearlyCentred(section),
    solve: midway(striplineExactWithThickness),
  }),
  bindFormula({
    id: 'stripline-cohn-wide',
    title: 'Cohn, wide strip midway',
    source: COHN,
    ownFit: false,
    limits: WIDE_LIMITS,
    regions: [
      {
        limits: BOX,
      },
    ],
    applies: (section) => isSingleStripline(section) && isNearlyCentred(section) && isWide(section),
    solve: midway(striplineCohn),
  }),
  bindFormula({
    id: 'stripline-cohn-narrow',
    title: 'Cohn, narrow strip midway',
    source: COHN,
    ownFit: false,
    limits: NARROW_LIMITS,
    regions: [
      {
        limits: [...BOX, ...NARROW_LIMITS],
      },
      { limits: BOX },
    ],
    applies: (section) =>
      isSingleStripline(section) && isNearlyCentred(section) && !isWide(section) && isFlat(section),
    solve: midway(striplineCohn),
  }),
  bindFormula({
    id: 'stripline-parallel-halves',
    title: 'Two half lines in parallel',
    source: `common practice after ${COHN}; halves by ${WHEELER}`,
    ownFit: false,
    limits: HALVES_LIMITS,
    regions: [upToRatio(1.2), upToRatio(2), upToRatio(4), upToRatio(12)],
    applies: isSingleStripline,
    solve: (section, frequency) => weighted(striplineSection(section, frequency), offsetParallelHalves, []),
  }),
  bindFormula({
    id: 'stripline-simple-logarithm',
    title: 'Simple logarithm, for comparison only',
    source: 'IPC-2141',
    ownFit: false,
    limits: LOG_LIMITS,
    regions: [{ limits: [...BOX, ...LOG_LIMITS] }, { limits: BOX }],
    applies: (section) =>
      isSingleStripline(section) && isNearlyCentred(section) && logarithmIsPositive(section),
    solve: midway(striplineSimpleLog),
  }),
]

/** A form for a strip midway in one dielectric: taken for the air line, the permittivity by capacitance weights. */
function midway(kernel: (line: CentredStripline) => Ohms): Binding['solve'] {
  return (section, frequency) => {
    const { distanceRatio, spacing } = striplineOutline(section)
    const excess = distanceRatio - 1
    return weighted(
      striplineSection(section, frequency),
      ({ width, thickness, relativePermittivity }) =>
        kernel({ width, thickness, spacing, relativePermittivity }),
      [{ error: OFF_CENTRE * excess * excess, cause: 'plus a strip not quite midway taken as midway' }],
    )
  }
}

function weighted(
  { line, contrast, values, added }: StriplineSection,
  airImpedance: (line: OffsetStripline) => Ohms,
  more: readonly AddedError[],
): Solution {
  const { effectivePermittivity } = twoDielectricCapacitanceWeighted(line)
  const impedance = airImpedance({ ...line, relativePermittivity: 1 }) / Math.sqrt(effectivePermittivity)
  return {
    modes: singleMode({ impedance, effectivePermittivity }),
    values,
    added: [...added, ...more, contrastError(contrast, WEIGHTED_CONTRAST)],
  }
}

function contrastError(contrast: Ratio, share: number): AddedError {
  return { error: share * (contrast - 1), cause: 'plus two dielectrics' }
}

function isNearlyCentred(section: CrossSection): boolean {
  return striplineOutline(section).distanceRatio <= NEARLY_CENTRED
}

function isWide(section: CrossSection): boolean {
  const { width, thickness, spacing } = striplineOutline(section)
  return width / (spacing - thickness) >= SEAM
}

/** Hardly thicker than wide: the equivalent wire grows with the cube of thickness over width. */
function isFlat(section: CrossSection): boolean {
  const { width, thickness } = striplineOutline(section)
  return thickness <= 1.25 * width
}

function hasTwoDielectrics(section: CrossSection): boolean {
  const permittivities = [...section.below, ...section.above].map((sheet) => sheet.permittivity.relative)
  return permittivities.some((permittivity) => permittivity !== permittivities[0])
}

function logarithmIsPositive(section: CrossSection): boolean {
  const { width, thickness, spacing } = striplineOutline(section)
  return 0.8 * width + thickness < 1.9 * spacing
}
