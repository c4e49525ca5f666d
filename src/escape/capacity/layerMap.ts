import type { Metres } from '../../units/quantity.ts'

/** A place of the grid: its row and its column, from 0. */
export interface Site {
  readonly row: number
  readonly column: number
}

/** What the capacity of one layer depends on. */
export interface LayerMap {
  /** Coordinates of the columns and of the rows of sites; each rises throughout or falls throughout. */
  readonly xs: readonly Metres[]
  readonly ys: readonly Metres[]
  /**
   * By row, then column: from the centre of what stands at a site to the nearest trace edge that is allowed; 0 where
   * nothing stands.
   */
  readonly reach: readonly (readonly Metres[])[]
  /** Where the balls wait that want to leave on this layer; what stands at their own site never stops them. */
  readonly sources: readonly Site[]
  readonly width: Metres
  readonly gap: Metres
  /** By how much a channel may be too narrow and still count as wide enough. */
  readonly tolerance: Metres
}

/** Throws RangeError unless the map is whole: sizes agree, lengths are finite, sources lie on it and differ. */
export function assertLayerMap(map: LayerMap): void {
  assertLine('columns', map.xs)
  assertLine('rows', map.ys)
  if (map.reach.length !== map.ys.length || map.reach.some((row) => row.length !== map.xs.length)) {
    throw new RangeError(`a reach is needed for each of ${map.ys.length} × ${map.xs.length} sites`)
  }
  for (const reach of map.reach.flat()) {
    if (!(reach >= 0 && Number.isFinite(reach))) throw new RangeError(`a reach must be ≥ 0 m, got ${reach} m`)
  }
  if (!(map.width > 0 && Number.isFinite(map.width)))
    throw new RangeError(`a trace width must be > 0 m, got ${map.width} m`)
  if (!(map.gap > 0 && Number.isFinite(map.gap)))
    throw new RangeError(`a trace gap must be > 0 m, got ${map.gap} m`)
  if (!(map.tolerance >= 0 && map.tolerance < map.width)) {
    throw new RangeError(`a tolerance must be ≥ 0 m and below the trace width, got ${map.tolerance} m`)
  }
  assertSources(map)
}

function assertLine(name: string, places: readonly Metres[]): void {
  const rises = (places[1] ?? 0) > (places[0] ?? 0)
  for (const [index, place] of places.entries()) {
    const before = places[index - 1]
    const ordered = before === undefined || (rises ? place > before : place < before)
    if (!(Number.isFinite(place) && ordered)) {
      throw new RangeError(`coordinates of ${name} must rise or fall throughout, got ${place} m at ${index}`)
    }
  }
}

function assertSources(map: LayerMap): void {
  const seen = new Set<number>()
  for (const { row, column } of map.sources) {
    if (map.reach[row]?.[column] === undefined) {
      throw new RangeError(`a source lies at row ${row}, column ${column}, outside the grid`)
    }
    seen.add(row * map.xs.length + column)
  }
  if (seen.size !== map.sources.length) throw new RangeError('two sources share a site')
}

/** Share of a track that sums of lengths may lose by rounding; counting it in keeps an upper bound one. */
const ROUNDING = 1e-9

/** Whole traces that pass a clear width, with a gap between each two and none at the ends. */
export function tracesThrough(map: LayerMap, clear: Metres): number {
  const tracks = (clear + map.gap + map.tolerance) / (map.width + map.gap)
  return Math.max(0, Math.floor(tracks + ROUNDING))
}
