import fc from 'fast-check'
import type { CrossSection } from '../../src/section/crossSection.ts'
import { lineSection, type SectionShape, type Sheet } from './lineSection.ts'

/**
 * Seeded cross-sections of single traces, drawn over the fine-line regime and beyond: the same ones at every run.
 * Ratios are drawn evenly over their logarithms, so that small and large ones are met alike.
 */
export const STRUCTURES = [
  'bare microstrip',
  'coated microstrip',
  'embedded microstrip',
  'stripline',
  'bare coplanar',
  'coated coplanar',
  'embedded coplanar',
  'coplanar stripline',
] as const

export type Structure = (typeof STRUCTURES)[number]

export function randomSections(structure: Structure, count: number, seed: number): CrossSection[] {
  return fc.sample(shapeOf(structure), { numRuns: count, seed }).map(lineSection)
}

const between = (low: number, high: number): fc.Arbitrary<number> =>
  fc.double({ min: low, max: high, noNaN: true })
const evenly = (low: number, high: number): fc.Arbitrary<number> =>
  between(Math.log(low), Math.log(high)).map((logarithm) => Math.exp(logarithm))
const HEIGHT = 100e-6
const permittivity = between(3, 4.5)

const trace = fc
  .record({ u: evenly(0.25, 4), thick: evenly(0.05, 0.6), slope: between(0, 0.4) })
  .map(({ u, thick, slope }) => {
    const width = u * HEIGHT
    const thickness = Math.min(thick * HEIGHT, 0.9 * width)
    return { width, thickness, topWidth: Math.max(0.5 * width, width - 2 * slope * thickness) }
  })

const oneSheet = permittivity.map((er): readonly Sheet[] => [[HEIGHT, er]])
const sheets = fc.oneof(
  oneSheet,
  fc
    .record({ share: between(0.2, 0.8), near: permittivity, far: permittivity })
    .map(({ share, near, far }): readonly Sheet[] => [
      [share * HEIGHT, near],
      [(1 - share) * HEIGHT, far],
    ]),
)
const cover = fc
  .record({ reach: evenly(0.3, 4), er: permittivity })
  .map(({ reach, er }): readonly Sheet[] => [[reach * HEIGHT, er]])
/** As thick on the side walls as on the top, which is what a section says of mask. */
const mask = fc
  .record({ reach: evenly(0.08, 0.35), er: between(3, 4) })
  .map(({ reach, er }) => ({ overLaminate: reach * HEIGHT, overTrace: reach * HEIGHT, permittivity: er }))
const far = fc
  .record({ ratio: evenly(1, 6), er: permittivity, upside: fc.boolean() })
  .map(({ ratio, er, upside }) => ({ ratio: upside ? 1 : ratio, er }))
const coplanarGap = evenly(0.6, 3).map((ratio) => ratio * HEIGHT)

function shapeOf(structure: Structure): fc.Arbitrary<SectionShape> {
  const base = fc.record({ trace, below: sheets })
  const plain = base.map((shape): SectionShape => ({ ...shape.trace, below: shape.below }))
  const planes = fc.record({ plain, far }).map(({ plain: shape, far: { ratio, er } }): SectionShape => ({
    ...shape,
    above: [[ratio * HEIGHT, er]],
    twoPlanes: true,
  }))
  const withMask = fc
    .record({ plain, mask })
    .map((shape): SectionShape => ({ ...shape.plain, mask: shape.mask }))
  const covered = fc
    .record({ plain, cover })
    .map((shape): SectionShape => ({ ...shape.plain, above: shape.cover }))
  const beside = (shapes: fc.Arbitrary<SectionShape>): fc.Arbitrary<SectionShape> =>
    fc
      .record({ shape: shapes, coplanarGap })
      .map(({ shape, coplanarGap: gap }) => ({ ...shape, coplanarGap: gap }))
  const all: Readonly<Record<Structure, fc.Arbitrary<SectionShape>>> = {
    'bare microstrip': plain,
    'coated microstrip': withMask,
    'embedded microstrip': covered,
    stripline: planes,
    'bare coplanar': beside(plain),
    'coated coplanar': beside(withMask),
    'embedded coplanar': beside(covered),
    'coplanar stripline': beside(planes),
  }
  return all[structure]
}
