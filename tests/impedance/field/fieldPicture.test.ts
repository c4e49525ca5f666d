import { describe, expect, it } from 'vitest'
import { fieldPicture } from '../../../src/impedance/field/fieldPicture.ts'
import type { FieldPicture } from '../../../src/impedance/field/fieldPicture.ts'
import type { CrossSection } from '../../../src/section/crossSection.ts'
import { lineSection } from '../../helpers/lineSection.ts'
import type { SectionShape } from '../../helpers/lineSection.ts'

const micron = 1e-6

function pictureOf(section: CrossSection): FieldPicture {
  return fieldPicture(section, ({ permittivity }) => permittivity.relative)
}

const surface: SectionShape = {
  width: 80 * micron,
  topWidth: 60 * micron,
  thickness: 30 * micron,
  below: [[65 * micron, 3.6]],
  mask: { overLaminate: 20 * micron, overTrace: 13 * micron, permittivity: 3.8 },
}
const buried: SectionShape = {
  width: 80 * micron,
  thickness: 15 * micron,
  below: [[75 * micron, 3.6]],
  above: [[180 * micron, 4]],
  twoPlanes: true,
}
const single = pictureOf(lineSection(surface))
const pair = pictureOf(lineSection({ ...surface, gap: 90 * micron }))
const coplanar = pictureOf(lineSection({ ...surface, coplanarGap: 100 * micron }))
const facing = lineSection({ ...buried, above: [[75 * micron, 3.6]] })
const broadside = pictureOf({
  ...facing,
  arrangement: 'broadside pair',
  broadside: { layer: 3, sheets: facing.below },
})

const levelsOf = ({ lines }: FieldPicture): number[] =>
  [...new Set(lines.map(({ level }) => level))].sort((a, b) => a - b)

const tenths = (from: number, to: number): number[] =>
  Array.from({ length: to - from + 1 }, (_, index) => (from + index) / 10)

describe('the picture of a field', () => {
  it('has a line every tenth of the voltage: to the planes, and of a pair to the other trace', () => {
    expect(levelsOf(single)).toEqual(tenths(1, 9))
    expect(levelsOf(coplanar)).toEqual(tenths(1, 9))
    expect(levelsOf(pair)).toEqual(tenths(-9, 9))
    expect(levelsOf(broadside)).toEqual(tenths(-9, 9))
  })

  it('has lines a tenth of the height apart under a trace wide enough to be a plate', () => {
    const height = 100 * micron
    const wide = pictureOf(lineSection({ width: 2e-3, thickness: 20 * micron, below: [[height, 4]] }))
    // Fringing dies away as exp(−π x / height): nothing is left of it in the middle, ten heights from the edge.
    for (const level of tenths(1, 9)) {
      const under = wide.lines
        .filter((line) => line.level === level)
        .flatMap(({ points }) => points)
        .filter(({ x, y }) => Math.abs(x) < 5 * height && y < height)
      // Straight lines have no points of their own there, so the first beyond on either side counts too.
      for (const { y } of under) expect(Math.abs(y / height - level)).toBeLessThan(0.01)
    }
  })

  it('crosses the axis under a plate at the share of the height', () => {
    const height = 100 * micron
    const wide = pictureOf(lineSection({ width: 2e-3, thickness: 20 * micron, below: [[height, 4]] }))
    for (const level of tenths(1, 9)) {
      const crossings = wide.lines
        .filter((line) => line.level === level)
        .flatMap(({ points }) =>
          points.slice(1).flatMap((to, index) => {
            const from = points[index] ?? to
            if (from.x > 0 === to.x > 0) return []
            return [from.y + ((0 - from.x) * (to.y - from.y)) / (to.x - from.x)]
          }),
        )
      const lowest = Math.min(...crossings)
      expect(Math.abs(lowest / height - level)).toBeLessThan(0.01)
    }
  })

  it('keeps the lines of a trace out of its copper', () => {
    for (const { lines } of [single, coplanar]) {
      const inside = lines.flatMap(({ points }) =>
        points.filter(({ x, y }) => y > 67 * micron && y < 93 * micron && Math.abs(x) < 27 * micron),
      )
      expect(inside).toEqual([])
    }
  })

  it('has copper and mask where the solution has them, both halves', () => {
    const [trace, ...others] = single.copper
    expect(others).toEqual([])
    const xs = (trace?.corners ?? []).map(({ x }) => x)
    expect(Math.min(...xs)).toBeCloseTo(-40 * micron, 12)
    expect(Math.max(...xs)).toBeCloseTo(40 * micron, 12)
    expect(new Set(trace?.corners.map(({ y }) => Math.round(y / micron)))).toEqual(new Set([65, 95]))
    expect(pair.copper.map(({ role }) => role)).toEqual(['trace', 'trace'])
    expect(coplanar.copper.map(({ role }) => role)).toEqual(['trace', 'ground', 'ground'])
    const heights = (single.surface ?? []).map(({ y }) => Math.round(y / micron))
    expect(heights.at(0)).toBe(85)
    expect(heights.at(-1)).toBe(85)
    expect(Math.max(...heights)).toBe(108)
    expect(broadside.surface).toBeNull()
  })

  it('turns the left half of a pair to the opposite', () => {
    const extremes = (level: number): number[] => {
      const points = pair.lines.filter((line) => line.level === level).flatMap((line) => line.points)
      return [Math.min(...points.map(({ x }) => x)), Math.max(...points.map(({ x }) => x))]
    }
    // Thinned from different starting points: either may stray by 8e-4 of the width of the picture.
    const thinning = 2 * 8e-4 * 2 * pair.window.halfWidth
    for (const level of tenths(1, 9)) {
      const [left = 0, right = 0] = extremes(level)
      const [mirroredLeft = 0, mirroredRight = 0] = extremes(0 - level)
      expect(Math.abs(left + mirroredRight)).toBeLessThan(thinning)
      expect(Math.abs(right + mirroredLeft)).toBeLessThan(thinning)
      expect(left).toBeGreaterThan(0)
    }
  })

  it('has no potential half way between facing traces that see alike planes', () => {
    const zero = broadside.lines.filter(({ level }) => level === 0).flatMap(({ points }) => points)
    const middle = (75 + 15 + 75 / 2) * micron
    expect(zero.length).toBeGreaterThan(1)
    for (const { y } of zero) expect(Math.abs(y - middle)).toBeLessThan(0.5 * micron)
  })

  it('shows a near plane whole, and leaves a far one outside', () => {
    expect(single.window.bottom).toBe(0)
    const far = pictureOf(lineSection({ ...buried, above: [[900 * micron, 4]] }))
    expect(far.window.bottom).toBe(0)
    expect(far.window.top).toBeLessThan(500 * micron)
    const near = pictureOf(lineSection(buried))
    expect(near.window.top).toBeCloseTo(270 * micron, 12)
  })

  it('is the same at every scale', () => {
    const grown = pictureOf(
      lineSection({
        ...buried,
        width: 80e-3,
        thickness: 15e-3,
        below: [[75e-3, 3.6]],
        above: [[180e-3, 4]],
      }),
    )
    const small = pictureOf(lineSection(buried))
    expect(grown.lines.map(({ points }) => points.length)).toEqual(
      small.lines.map(({ points }) => points.length),
    )
    const reach = (picture: FieldPicture): number =>
      Math.max(
        ...picture.lines
          .filter(({ level }) => level === 0.5)
          .flatMap(({ points }) => points.map(({ x }) => x)),
      )
    expect(reach(grown) / reach(small) / 1000).toBeCloseTo(1, 6)
  })
})
