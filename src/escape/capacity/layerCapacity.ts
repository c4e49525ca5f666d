import { FlowNetwork } from '../../numerics/maximumFlow.ts'
import type { Metres } from '../../units/quantity.ts'
import { chainsOf } from './chains.ts'
import type { Chain } from './chains.ts'
import { assertLayerMap } from './layerMap.ts'
import type { LayerMap, Site } from './layerMap.ts'
import { OUTSIDE, piecesOf } from './pieces.ts'
import type { Pieces } from './pieces.ts'

/** How many single traces one layer lets out at most, and the cut that proves it. */
export interface LayerCapacity {
  /** Traces through the gates of the cut, and sources that are no further in than the cut. */
  readonly atMost: number
  /** Gates that everything from further in has to pass. Empty where nothing but the number of sources limits. */
  readonly cut: readonly CutGate[]
  /** Sources on the cut or outside it: they may leave without passing it. */
  readonly onCut: readonly Site[]
  /** True where the cut keeps at least one source in. */
  readonly saturated: boolean
}

/** The way between two obstacles of a cut, straight or over empty sites. */
export interface CutGate {
  readonly from: Site
  readonly to: Site
  readonly clear: Metres
  /** Whole traces that pass. */
  readonly traces: number
}

/** Flow units in one trace; even, for half a diagonal carries half its traces. */
const UNITS = 1024

/**
 * An upper bound on the single traces that leave one layer, in whatever shape they are laid, while the given
 * obstacles stand: whole tracks per gap between neighbouring obstacles, straight and diagonal.
 *
 * A maximum flow from the sources to the outside, over cells between the gates, points out where the layer is
 * tightest. Its minimum cut is then counted anew in whole traces (`chainsOf`, where the argument is given), so that
 * the bound is as certain as this count, however well the flow chose. For sources of which some lie on the cut:
 *
 *     atMost = Σ traces of the gates + sources on the cut
 *
 * Not every cut is tried, so a tighter one may exist where balls are missing or reaches differ.
 *
 * Holds for traces no finer than the given width and gap, each of which keeps its distance from every obstacle but
 * its own, and for layouts in which all that passes one gate falls short by no more than the tolerance together.
 *
 * Throws RangeError as `assertLayerMap` does.
 *
 * Sources: R. Shi, C.-K. Cheng, "Efficient escape routing for hexagonal array of high density I/Os", Design Automation
 * Conference 2006, and slides (flow over tiles; fractional there, whole tracks here); T. Yan, M. D. F. Wong,
 * "Correctly modeling the diagonal capacity in escape routing", IEEE Trans. CAD 31(2), 2012.
 */
export function layerCapacity(map: LayerMap): LayerCapacity {
  assertLayerMap(map)
  const pieces = piecesOf(map)
  const sources = map.sources.map((site) => ({ site, cells: pieces.cellsAt(site.row, site.column) }))
  const enclosed = sources.filter(({ cells }) => !cells.includes(OUTSIDE))
  const inner = innerCells(pieces, enclosed)
  const isWithin = ({ cells }: { cells: readonly number[] }): boolean =>
    cells.every((cell) => inner[cell] === 1)
  const within = enclosed.filter(isWithin).map(({ site }) => site.row * map.xs.length + site.column)
  const border = pieces.pieces.filter(({ cells: [one, other] }) => inner[one] !== inner[other])
  const chains = chainsOf(map, pieces, { border, within: new Set(within) }, sitesInUse(map))
  const passing = chains.reduce((sum, { traces }) => sum + traces, 0)
  if (!(passing < within.length)) {
    return { atMost: map.sources.length, cut: [], onCut: map.sources, saturated: false }
  }
  return {
    atMost: passing + sources.length - within.length,
    cut: chains.map((chain) => gateOf(map, chain)),
    onCut: sources.filter((source) => !isWithin(source)).map(({ site }) => site),
    saturated: true,
  }
}

interface Enclosed {
  readonly cells: readonly number[]
}

/** 1 for each cell on the inner side of the cheapest cut. */
function innerCells(pieces: Pieces, enclosed: readonly Enclosed[]): Uint8Array {
  const { cellCount } = pieces
  const start = cellCount + enclosed.length
  const network = new FlowNetwork(start + 1)
  const unlimited = UNITS * (enclosed.length + 1)
  for (const [one, other] of pieces.open) network.addArc(one, other, unlimited, unlimited)
  for (const { cells, share } of pieces.pieces) {
    const units = Math.ceil(share * UNITS - 1e-6)
    network.addArc(cells[0], cells[1], units, units)
  }
  for (const [index, { cells }] of enclosed.entries()) {
    network.addArc(start, cellCount + index, UNITS)
    for (const cell of cells) network.addArc(cellCount + index, cell, UNITS)
  }
  return network.solve(start, OUTSIDE).sourceSide
}

/** Sites at which something stands or starts. */
function sitesInUse(map: LayerMap): number[] {
  const columns = map.xs.length
  const starts = new Set(map.sources.map(({ row, column }) => row * columns + column))
  return map.reach.flat().flatMap((reach, site) => (reach > 0 || starts.has(site) ? [site] : []))
}

function gateOf(map: LayerMap, chain: Chain): CutGate {
  const siteOf = (index: number): Site => ({
    row: Math.floor(index / map.xs.length),
    column: index % map.xs.length,
  })
  return { from: siteOf(chain.from), to: siteOf(chain.to), clear: chain.clear, traces: chain.traces }
}
