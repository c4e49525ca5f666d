import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import type { LayerMap } from '../../../src/escape/capacity/layerMap.ts'
import { closeAround, NOBODY } from '../../../src/escape/routing/closeWays.ts'
import { DisjointPaths } from '../../../src/escape/routing/disjointPaths.ts'
import { laneLines } from '../../../src/escape/routing/laneLines.ts'
import type { SiteLine } from '../../../src/escape/routing/laneLines.ts'
import { Lattice } from '../../../src/escape/routing/lattice.ts'
import { mapOf } from '../capacity/maps.ts'

interface Reference {
  readonly columns: readonly { readonly name: string }[]
  readonly rows: readonly (readonly (string | number)[])[]
}

/** Counts of an independent program with the flow solver of scipy; see reference/escape/vertexDisjointPaths.py. */
const reference = JSON.parse(
  readFileSync(join(import.meta.dirname, '../../../reference/escape/vertexDisjointPaths.json'), 'utf8'),
) as Reference

/** Most that the lanes of a map let out. */
function mostOut(map: LayerMap): number {
  const reachesOf = (reaches: readonly number[]): Pick<SiteLine, 'reach' | 'leastReach'> => {
    const standing = reaches.filter((reach) => reach > 0)
    return { reach: Math.max(0, ...standing), leastReach: standing.length === 0 ? 0 : Math.min(...standing) }
  }
  const across: SiteLine[] = map.xs.map((at, column) => ({
    at,
    ...reachesOf(map.reach.map((row) => row[column] ?? 0)),
  }))
  const upwards: SiteLine[] = map.ys
    .map((at, row) => ({ at, ...reachesOf(map.reach[row] ?? []) }))
    .toReversed()
  const rules = { width: map.width, gap: map.gap, tolerance: map.tolerance }
  const [left = 0, right = 0] = [map.xs[0], map.xs.at(-1)]
  const [top = 0, bottom = 0] = [map.ys[0], map.ys.at(-1)]
  const ends = { left: left - 1e-3, right: right + 1e-3, bottom: bottom - 1e-3, top: top + 1e-3 }
  const columns = laneLines(across, rules, false)
  const rows = laneLines(upwards, rules, false)
  const lattice = new Lattice(columns, rows, ends)
  const nodeAt = (row: number, column: number): number =>
    lattice.nodeAt(
      columns.findIndex(({ site }) => site === column),
      rows.findIndex(({ site }) => site === map.ys.length - 1 - row),
    )
  const starts = map.sources.map(({ row, column }) => nodeAt(row, column))
  for (const [row, reaches] of map.reach.entries()) {
    for (const [column, reach] of reaches.entries()) {
      const at = { x: map.xs[column] ?? NaN, y: map.ys[row] ?? NaN }
      const own = nodeAt(row, column)
      const spared = starts.includes(own) ? own : NOBODY
      if (reach > 0)
        closeAround(lattice, { from: at, to: at, distance: reach + map.width / 2 }, map.tolerance, spared)
    }
  }
  const paths = new DisjointPaths(
    lattice,
    starts,
    (node) => lattice.open[node] === 0,
    () => true,
  )
  return starts.filter((start) => paths.connect(start)).length
}

describe('paths along lanes beside an independent count', () => {
  it('are at least as many as the plain lattice of lanes has, and no more than the capacity of any layout', () => {
    const names = reference.columns.map(({ name }) => name)
    const misses = reference.rows.flatMap((row) => {
      const value = (name: string): number => Number(row[names.indexOf(name)])
      const text = (name: string): string => String(row[names.indexOf(name)])
      const lengths = {
        pitchX: value('pitchX'),
        pitchY: value('pitchY'),
        smallReach: value('smallReach'),
        largeReach: value('largeReach'),
        width: value('width'),
        gap: value('gap'),
      }
      const out = mostOut(mapOf(text('map').split('/'), lengths))
      return out >= value('lattice') && out <= value('capacity')
        ? []
        : [`${text('name')}: ${value('lattice')} ≤ ${out} ≤ ${value('capacity')}`]
    })
    expect(reference.rows.length).toBeGreaterThan(50)
    expect(misses).toEqual([])
  })
})
