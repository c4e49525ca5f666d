import { readFileSync } from 'node:fs'
import { dirname, join, resolve } from 'node:path'
import { describe, expect, it } from 'vitest'
import { readBoard } from '../../../src/board/readBoard.ts'
import { manufacturedFeatures } from '../../../src/report/viewModel/features.ts'
import { review } from '../../../src/review.ts'
import type { Review } from '../../../src/review.ts'
import { sampleReview } from '../fixtures/review.ts'

const layerName = (layer: number): string => `L${layer}`

function feature(name: string, where: string, review: Review = sampleReview) {
  const found = manufacturedFeatures(review, layerName).find(
    (each) => each.name.startsWith(name) && each.where.includes(where),
  )
  if (found === undefined) throw new Error(`no feature ${name} at ${where}`)
  return found
}

/** By hand from the figures of the sample board; lengths in millimetres here, to a micrometre. */
describe('what the fabricator has to make', () => {
  it.each([
    ['Narrowest trace, outer', 'L1', 0.076, 0.08, false],
    ['Narrowest trace, inner', 'L3', 0.076, 0.075, true],
    ['Smallest gap inside a pair, outer', 'L1', 0.09, 0.08, true],
    // 0.8 − 0.4 pad − 2 × 0.08 traces − 0.09 gap = 0.15, half of it at each side.
    ['Trace to land', 'L3', 0.075, 0.075, true],
    // 0.8 − 0.2 hole − 0.25 for the pair = 0.35, half of it at each side.
    ['Drilled hole to trace', 'L3', 0.175, 0.175, true],
    ['Mask web', 'U2', 0.5 - 0.33, 0.08, true],
    ['Hole wall to hole wall', 'U1', 0.8 - 0.2, 0.2, true],
    ['Plane web', 'U1', 0.8 - 0.62, 0.075, true],
    ['Annular ring, external', 'through via', (0.42 - 0.15) / 2, 0.05, true],
    ['Annular ring, internal', 'through via', (0.4 - 0.2) / 2, 0.025, true],
    ['Thinnest dielectric', 'outer prepreg', 0.065, 0.05, true],
  ] as const)('%s at %s', (name, where, value, limit, met) => {
    const found = feature(name, where)
    expect(found.value * 1000).toBeCloseTo(value, 6)
    expect((found.limit ?? 0) * 1000).toBeCloseTo(limit, 6)
    expect(found.met).toBe(met)
  })

  it('counts the depth of a through hole over everything it passes', () => {
    // The outer layers are plated after drilling: 40 µm finished, 25 µm of it plating.
    const copper = [0.015, 0.015, 0.015, 0.015, 0.03, 0.03, 0.015, 0.015, 0.015, 0.015]
    const sheets = [0.065, 0.1, 0.12, 0.1, 0.48, 0.1, 0.12, 0.1, 0.065]
    const depth = [...copper, ...sheets].reduce((sum, each) => sum + each, 0)
    expect(feature('Aspect ratio', 'through via').value).toBeCloseTo(depth / 0.2, 6)
  })

  it('meets a limit that it equals within the comparison tolerance, and no less', () => {
    const { board } = sampleReview
    const withWeb = (maskWeb: number): Review => ({
      ...sampleReview,
      board: { ...board, fabrication: { ...board.fabrication, maskWeb } },
    })
    expect(feature('Mask web', 'U2', withWeb(0.1704e-3)).met).toBe(true)
    expect(feature('Mask web', 'U2', withWeb(0.1706e-3)).met).toBe(false)
  })
})

/** The rules of the findings come to the same figures by code of their own. */
describe('the table of features and the findings', () => {
  const REFERENCE = resolve(import.meta.dirname, '../../../reference')

  it.each(['demo/hydrophone-recorder.yaml', 'demo/reef-camera-hdi.yaml', 'boards/csfbga285-six-layer.yaml'])(
    'measure %s alike when nothing it asks for can be made',
    async (file) => {
      const path = join(REFERENCE, file)
      const companion = (name: string): Uint8Array => readFileSync(join(dirname(path), name))
      const { board } = await readBoard({ file, text: readFileSync(path), companion })
      if (board === null) throw new Error(`${file} cannot be read`)
      const annularRing = { ...board.fabrication.annularRing, external: 1e-3, internal: 1e-3 }
      const impossible = {
        annularRing,
        aspectRatio: { drilled: 0.1, microvia: 0.1 },
        maskWeb: 5e-3,
        maxStackedMicrovias: 0,
      }
      const reviewed = review({ ...board, fabrication: { ...board.fabrication, ...impossible } })
      const features = manufacturedFeatures(reviewed, layerName)
      const found = (code: string) => reviewed.findings.filter((finding) => finding.code === code)
      const valuesOf = (name: string): number[] =>
        features.filter((each) => each.name.startsWith(name)).map((each) => each.value)
      const measured = [
        ...found('aspect-ratio-too-high').map((finding) => ['Aspect ratio', finding.measured.value] as const),
        ...found('annular-ring-too-small').map(
          (finding) => ['Annular ring', finding.measured.value] as const,
        ),
        ...found('mask-too-near')
          .filter((finding) => finding.measured.what.startsWith('web'))
          .map((finding) => ['Mask web', finding.measured.value] as const),
      ]
      expect(measured.length).toBeGreaterThanOrEqual(3)
      const strange = measured.filter(
        ([name, value]) => !valuesOf(name).some((each) => Math.abs(each - value) < 1e-9 * Math.max(1, value)),
      )
      expect(strange).toEqual([])
    },
  )
})
