import { coplanarCoated, LIMITS as COATED_LIMITS } from '../closedForm/coplanarCoated.ts'
import { coplanarEmbedded, LIMITS as EMBEDDED_LIMITS } from '../closedForm/coplanarEmbedded.ts'
import { coplanarGhioneNaldi, LIMITS as GHIONE_NALDI_LIMITS } from '../closedForm/coplanarGhioneNaldi.ts'
import { coplanarSideWalls, LIMITS as SIDE_WALL_LIMITS } from '../closedForm/coplanarSideWalls.ts'
import { coplanarStripline, LIMITS as STRIPLINE_LIMITS } from '../closedForm/coplanarStripline.ts'
import { coplanarEquivalentWidth } from '../closedForm/trapezoidWidth.ts'
import type { CrossSection } from '../../section/crossSection.ts'
import type { Metres } from '../../units/quantity.ts'
import type { Formula } from '../estimate.ts'
import { bindFormula } from './bindFormula.ts'
import { coatedSection, embeddedSection } from './coverSection.ts'
import { microstripSection, singleMode } from './microstripSection.ts'
import { striplineSection } from './striplineSection.ts'
import { isBareCoplanar, isCoatedCoplanar, isCoplanarStripline, isEmbeddedCoplanar } from './structures.ts'

const GROUNDS = 'ground beside the trace taken as infinitely wide'
const OWN = 'own construction and fit, this project, on G. Ghione, C. Naldi, 1987'

/** Closed forms for a single trace with ground in its own layer on both sides, whatever lies above. */
export const COPLANAR: readonly Formula[] = [
  bindFormula({
    id: 'coplanar-side-walls',
    title: 'Conformal map with side walls, joined with microstrip',
    source: `${OWN}, and E. Hammerstad, O. Jensen, 1980`,
    ownFit: true,
    limits: SIDE_WALL_LIMITS,
    regions: [
      {
        limits: [
          { quantity: 'width/height', min: 0.05, max: 20 },
          { quantity: 'gap/height', min: 0.15, max: 10 },
          { quantity: 'thickness/gap', min: 0, max: 1 },
          { quantity: 'thickness/width', min: 0, max: 1.5 },
          { quantity: 'relative permittivity', min: 2.2, max: 8 },
        ],
        note: GROUNDS,
      },
    ],
    applies: isBareCoplanar,
    solve: (section, frequency) => {
      const { width, gap } = equivalent(section)
      const { line, values, added } = microstripSection(section, width, frequency)
      return {
        modes: singleMode(coplanarSideWalls({ ...line, gap })),
        values: { ...values, ...gapValues(gap, line.height, line.thickness) },
        added,
      }
    },
  }),
  bindFormula({
    id: 'coplanar-ghione-naldi',
    title: 'Ghione and Naldi, thin strip',
    source:
      'G. Ghione, C. Naldi, "Coplanar waveguides for MMIC applications", IEEE Trans. MTT-35, 1987, 260–267; Electronics Letters 19, 1983, 734–735',
    ownFit: false,
    limits: GHIONE_NALDI_LIMITS,
    regions: [
      {
        limits: [
          { quantity: 'width/height', min: 0.2, max: 6 },
          { quantity: 'gap/height', min: 0.3, max: 5 },
          { quantity: 'thickness/gap', min: 0, max: 1 },
        ],
      },
    ],
    applies: isBareCoplanar,
    solve: (section, frequency) => {
      const { width, gap } = equivalent(section)
      const { line, values, added } = microstripSection(section, width, frequency)
      return {
        modes: singleMode(coplanarGhioneNaldi({ ...line, gap })),
        values: { ...values, ...gapValues(gap, line.height, line.thickness) },
        added,
      }
    },
  }),
  bindFormula({
    id: 'coplanar-coated',
    title: 'Conformal map with side walls under mask, joined with microstrip',
    source: `${OWN}, and E. Hammerstad, O. Jensen, 1980`,
    ownFit: true,
    limits: COATED_LIMITS,
    regions: [
      {
        limits: [...COATED_LIMITS, { quantity: 'thickness/width', min: 0, max: 1 }],
        note: GROUNDS,
      },
    ],
    applies: isCoatedCoplanar,
    solve: (section, frequency) => {
      if (section.mask === null) throw new RangeError('a coated line needs a mask')
      const { width, gap } = equivalent(section)
      const { line, values, added } = coatedSection(section, section.mask, width, frequency)
      return {
        modes: singleMode(coplanarCoated({ ...line, gap })),
        values: { ...values, ...gapValues(gap, line.height, line.thickness) },
        added,
      }
    },
  }),
  bindFormula({
    id: 'coplanar-embedded',
    title: 'Conformal map with side walls under dielectric, joined with microstrip',
    source: `${OWN}, and E. Hammerstad, O. Jensen, 1980`,
    ownFit: true,
    limits: EMBEDDED_LIMITS,
    regions: [
      {
        limits: [...EMBEDDED_LIMITS, { quantity: 'thickness/width', min: 0, max: 1 }],
        note: GROUNDS,
      },
    ],
    applies: isEmbeddedCoplanar,
    solve: (section, frequency) => {
      const { width, gap } = equivalent(section)
      const { line, values, added } = embeddedSection(section, width, frequency)
      return {
        modes: singleMode(coplanarEmbedded({ ...line, gap })),
        values: { ...values, ...gapValues(gap, line.height, line.thickness) },
        added,
      }
    },
  }),
  bindFormula({
    id: 'coplanar-stripline',
    title: 'Conformal map with side walls between two planes, joined with stripline',
    source: `${OWN}, and H. A. Wheeler, IEEE Trans. MTT-26, 1978, 866–876`,
    ownFit: true,
    limits: STRIPLINE_LIMITS,
    regions: [
      {
        limits: [...STRIPLINE_LIMITS, { quantity: 'thickness/width', min: 0, max: 1 }],
        note: GROUNDS,
      },
      {
        limits: [
          { quantity: 'width/near distance', min: 0.05, max: 20 },
          { quantity: 'gap/near distance', min: 0.15, max: 8 },
          { quantity: 'thickness/near distance', min: 0, max: 0.8 },
          { quantity: 'thickness/width', min: 0, max: 1.2 },
          { quantity: 'distance ratio', min: 1, max: 20 },
        ],
        note: GROUNDS,
      },
    ],
    applies: isCoplanarStripline,
    solve: (section, frequency) => {
      const { line, values, added } = striplineSection(section, frequency)
      const gap = grownGap(section, line.width)
      const near = Math.min(line.below, line.above)
      return {
        modes: singleMode(coplanarStripline({ ...line, gap })),
        values: { ...values, 'gap/near distance': gap / near, 'thickness/gap': line.thickness / gap },
        added,
      }
    },
  }),
]

function equivalent(section: CrossSection): { readonly width: Metres; readonly gap: Metres } {
  const width = coplanarEquivalentWidth({ foot: section.trace.width, top: section.trace.topWidth })
  return { width, gap: grownGap(section, width) }
}

/** The gap is foot to foot; the rectangles that stand for the etched strip and grounds leave more between them. */
function grownGap(section: CrossSection, width: Metres): Metres {
  if (section.coplanarGap === null) throw new RangeError('a coplanar line needs ground beside it')
  return section.coplanarGap + section.trace.width - width
}

function gapValues(gap: Metres, height: Metres, thickness: Metres): Readonly<Record<string, number>> {
  return { 'gap/height': gap / height, 'thickness/gap': thickness / gap }
}
