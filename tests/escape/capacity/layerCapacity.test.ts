import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import { layerCapacity } from '../../../src/escape/capacity/layerCapacity.ts'
import type { LayerMap } from '../../../src/escape/capacity/layerMap.ts'
import { missedRows } from '../../helpers/compareTable.ts'
import { cutFaults } from './cutFaults.ts'
import { full, lettersOf, mapOf, ONE_TRACE, randomMap } from './maps.ts'

const reference = z
  .object({
    rows: z
      .array(
        z
          .tuple([
            z.string(),
            ...([z.int(), z.int(), z.int(), z.int(), z.int(), z.int()] as const),
            z.string(),
            ...([z.int(), z.int(), z.int(), z.int().nullable(), z.int()] as const),
            z.string(),
          ])
          .transform(
            ([name, pitchX, pitchY, smallReach, largeReach, width, gap, letters, , , ...counts]) => ({
              name,
              map: mapOf(letters.split('/'), { pitchX, pitchY, smallReach, largeReach, width, gap }),
              lattice: counts[0],
              raster: counts[1],
              capacity: counts[2],
            }),
          ),
      )
      .min(60),
  })
  .parse(
    JSON.parse(
      readFileSync(join(import.meta.dirname, '../../../reference/escape/vertexDisjointPaths.json'), 'utf8'),
    ),
  ).rows

function atMost(map: LayerMap): number {
  return layerCapacity(map).atMost
}

describe('the capacity of a layer', () => {
  // R. Shi, C.-K. Cheng, slides with the paper at the Design Automation Conference 2006: 40 × 40 array, pitch 150 um, pad
  // 75 um, line and space 20 um: 156 outer pads + 156 gaps of 1.375 tracks = 370.5; with whole tracks 156 + 156.
  it('is 312 traces for the published array of 40 × 40 with whole tracks', () => {
    const capacity = layerCapacity(mapOf(full(40, 40), ONE_TRACE))
    expect(capacity.atMost).toBe(312)
    expect(capacity.onCut).toHaveLength(156)
    expect(capacity.cut.map(({ traces }) => traces)).toEqual(new Array(156).fill(1))
    // (35 + 20) / 40 tracks, whole or not.
    expect(156 + (156 * ((capacity.cut[0]?.clear ?? NaN) + 20e-6)) / 40e-6).toBeCloseTo(370.5, 9)
  })

  // A full array of rows × columns has 2 (rows + columns − 2) balls on its rim and as many gaps between them.
  it.each(Array.from({ length: 17 }, (_, index) => index + 4))(
    'is the rim and one trace through each of its gaps for a full array of %i rows',
    (rows) => {
      for (const columns of [rows, rows + 3]) {
        const map = mapOf(full(rows, columns), ONE_TRACE)
        expect(atMost(map)).toBe(Math.min(rows * columns, 4 * (rows + columns - 2)))
      }
    },
  )

  /*
   * Where pads are small, a diagonal of a tile carries less than two of its sides, D < 2 G. A cut then goes across
   * the corners of an n × n array. Across m tiles at each corner it gains 4 m (2 G − D) traces and counts 2 m (m − 1) balls more:
   * lattice points of an octagon (G. Pick, 1899).
   */
  it('cuts across the corners where diagonals carry less than two sides', () => {
    const lengths = { pitchX: 150, pitchY: 150, smallReach: 12, largeReach: 12, width: 5, gap: 5 }
    const [straight, diagonal] = [13, 19] // ⌊(126 + 5.5) / 10⌋, ⌊(150 √2 − 24 + 5.5) / 10⌋
    const corners = Array.from({ length: 20 }, (_, m) => 2 * m * (m - 1) + 4 * m * (diagonal - 2 * straight))
    expect(atMost(mapOf(full(60, 60), lengths))).toBe(4 * 59 * (1 + straight) + Math.min(...corners))
  })

  it('equals what an independent implementation counts', () => {
    const rows = reference.map(({ name, map, capacity }) => ({
      label: name,
      actual: atMost(map),
      expected: capacity,
      tolerance: 0.5,
    }))
    expect(missedRows(rows)).toBe('')
    expect(reference.filter(({ map, capacity }) => capacity < map.sources.length).length).toBeGreaterThan(30)
  })

  it('is never less than layouts that surely exist let out', () => {
    const broken = reference.filter(
      ({ map, lattice, raster }) => atMost(map) < Math.max(lattice, raster ?? 0),
    )
    expect(broken.map(({ name }) => name)).toEqual([])
    const reached = reference.filter(
      ({ lattice, raster, capacity }) => Math.max(lattice, raster ?? 0) === capacity,
    )
    expect(reached.length).toBeGreaterThan(20)
  })

  it('comes with a cut that proves it', () => {
    let [limited, turning] = [0, 0]
    fc.assert(
      fc.property(randomMap, ({ rows, lengths }) => {
        const map = mapOf(rows, lengths)
        const capacity = layerCapacity(map)
        const verdict = cutFaults(map, capacity)
        expect(verdict.faults).toEqual([])
        limited += capacity.saturated ? 1 : 0
        turning += verdict.turning > 0 ? 1 : 0
      }),
      { seed: 17, numRuns: 300 },
    )
    expect(limited).toBeGreaterThan(100)
    expect(turning).toBeLessThan(limited / 20)
  })

  it('is the same for a map that is mirrored or turned', () => {
    fc.assert(
      fc.property(randomMap, ({ rows, lengths }) => {
        const map = mapOf(rows, lengths)
        const whole = atMost(map)
        const mirrored = rows.map((row) => lettersOf(row).reverse().join(''))
        expect(atMost(mapOf(mirrored, lengths))).toBe(whole)
        expect(atMost(mapOf([...rows].reverse(), lengths))).toBe(whole)
        const turned = lettersOf(rows[0] ?? '').map((_, column) => rows.map((row) => row[column]).join(''))
        const { pitchX, pitchY, ...rest } = lengths
        expect(atMost(mapOf(turned, { ...rest, pitchX: pitchY, pitchY: pitchX }))).toBe(whole)
      }),
      { seed: 17, numRuns: 150 },
    )
  })

  it('does not fall when an obstacle goes, shrinks, or the trace gets thinner', () => {
    fc.assert(
      fc.property(randomMap, fc.nat(), ({ rows, lengths }, pick) => {
        const map = mapOf(rows, lengths)
        const whole = atMost(map)
        const places = rows.flatMap((line, row) =>
          lettersOf(line).flatMap((letter, column) =>
            letter === 'o' || letter === 'O' ? [{ row, column }] : [],
          ),
        )
        const gone = places[pick % Math.max(1, places.length)]
        const without = rows.map((line, row) =>
          row === gone?.row ? line.slice(0, gone.column) + '.' + line.slice(gone.column + 1) : line,
        )
        expect(atMost(mapOf(without, lengths))).toBeGreaterThanOrEqual(whole)
        expect(atMost(mapOf(rows, { ...lengths, width: 0.8 * lengths.width }))).toBeGreaterThanOrEqual(whole)
        const smaller = { ...lengths, smallReach: 0.8 * lengths.smallReach }
        expect(atMost(mapOf(rows, smaller))).toBeGreaterThanOrEqual(whole)
      }),
      { seed: 17, numRuns: 150 },
    )
  })
})

describe('the capacity of odd maps', () => {
  it('lets a single ball out, and nothing where nothing waits', () => {
    expect(layerCapacity(mapOf(['s'], ONE_TRACE))).toEqual({
      atMost: 1,
      cut: [],
      onCut: [{ row: 0, column: 0 }],
      saturated: false,
    })
    expect(atMost(mapOf(['o.o', '...', 'ooo'], ONE_TRACE))).toBe(0)
    expect(atMost(mapOf([], ONE_TRACE))).toBe(0)
  })

  it('lets every ball of one row or one column out', () => {
    expect(atMost(mapOf(['sos.ss'], ONE_TRACE))).toBe(4)
    expect(atMost(mapOf(['s', 'o', 's', '.', 's'], ONE_TRACE))).toBe(3)
  })

  it.each([
    ['too narrow for a trace', 70],
    ['closed by lands that touch', 75],
    ['overlapped by clearances', 110],
  ])('lets only the rim out where every way is %s', (_, reach) => {
    const capacity = layerCapacity(mapOf(full(9, 9), { ...ONE_TRACE, smallReach: reach }))
    expect(capacity.atMost).toBe(32)
    expect(capacity.cut.every(({ traces }) => traces === 0)).toBe(true)
  })

  it('counts a channel that fits to the micrometre, and not one that misses by more than the tolerance', () => {
    // 150 − 2 · 55 = 40 = two traces of 10 and the gap of 20 between them.
    const lengths = { ...ONE_TRACE, smallReach: 55, width: 10 }
    expect(atMost(mapOf(full(20, 20), lengths, 0))).toBe(76 * 3)
    expect(atMost(mapOf(full(20, 20), { ...lengths, smallReach: 55.2 }, 0.5))).toBe(76 * 3)
    expect(atMost(mapOf(full(20, 20), { ...lengths, smallReach: 55.3 }, 0.5))).toBe(76 * 2)
  })

  it('counts a ball whose own place is empty of obstacles', () => {
    const map = mapOf(full(9, 9, 'o'), { ...ONE_TRACE, smallReach: 70 })
    const reach = map.reach.map((row, y) => row.map((value, x) => (y === 4 && x === 4 ? 0 : value)))
    expect(atMost({ ...map, reach, sources: [{ row: 4, column: 4 }] })).toBe(0)
  })

  /*
   * An island of 14 × 14 balls with reaches near nothing, a moat one site wide, a wall around it. A ring along the middle of
   * the moat is the cheapest cut, 60 steps of two tracks, but meets no obstacle: the four gates are counted that it
   * lies on, from wall to wall, ⌊(17,000 − 2 + 250.5) / 500⌋ = 34 traces each.
   */
  it('takes a ring that meets no obstacle as the gates on which it lies', () => {
    const lengths = { pitchX: 1000, pitchY: 1000, smallReach: 1, largeReach: 1, width: 250, gap: 250 }
    const island = full(14, 14).map((row) => `o.${row}.o`)
    const moat = `o${'.'.repeat(16)}o`
    const wall = 'o'.repeat(18)
    const map = mapOf([wall, moat, ...island, moat, wall], lengths)
    const capacity = layerCapacity(map)
    expect(capacity.cut).toHaveLength(4)
    expect(capacity.atMost).toBe(4 * 34)
    expect(cutFaults(map, capacity)).toEqual({ faults: [], turning: 0 })
  })
})
