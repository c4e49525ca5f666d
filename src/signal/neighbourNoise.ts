import type { NetClass } from '../board/nets.ts'
import { neighbourCoupling, type NeighbourCoupling } from '../impedance/neighbourCoupling.ts'
import type { Hertz, Metres, Ohms, Ratio } from '../units/quantity.ts'
import { farEndPeak, nearEndPeak, type CoupledPiece } from './crosstalk.ts'
import type { NeckCoupling, NeighbourNoise, StretchBeside } from './neckCoupling.ts'
import type { NeckSections } from './neckSections.ts'

/** The neck that is disturbed. */
export interface NoiseOf extends Pick<NeckCoupling, 'structure' | 'layer' | 'width' | 'gap'> {
  readonly impedance: Ohms | null
  /** Where permittivities are taken. */
  readonly frequency: Hertz
}

/** The trace that disturbs it. */
export interface NoiseFrom {
  readonly net: string
  readonly netClass: NetClass
  readonly width: Metres
  readonly stretches: readonly StretchBeside[]
}

interface Piece extends CoupledPiece, Pick<StretchBeside, 'gap' | 'coupled'> {
  readonly coupling: NeighbourCoupling
}

/** A trace of a pair swings half as far as the pair does differentially. */
const TRACE_OF_PAIR: Ratio = 0.5

/**
 * What one neighbour does to a neck, from its gaps and lengths, with the edge of its own class. Of a pair as
 * neighbour the trace next to the neck counts alone: the other one would take some of it back, 1 % of it between planes
 * and a fifth to a third over one (both from the field solution, traces and gaps of 80 µm 100 µm over the plane).
 *
 * Null where a section or a row cannot be solved.
 */
export function neighbourNoise(
  sections: NeckSections,
  neck: NoiseOf,
  from: NoiseFrom,
): NeighbourNoise | null {
  const { net, netClass, width, stretches } = from
  const pieces: Piece[] = []
  for (const { gap, length, coupled } of stretches) {
    const section = sections.of(neck.layer, neck.width, coupled ? neck.gap : null)
    const coupling = section && neighbourCoupling(section, neck.frequency, { width, gap })
    if (coupling === null) return null
    const { backward, forward } = coupling
    pieces.push({ backward, forward, length, delay: length * coupling.delay, coupling, gap, coupled })
  }
  const [first, ...others] = pieces
  if (first === undefined) return null
  const nearest = others.reduce((best, each) => (each.gap < best.gap ? each : best), first)
  const swing = netClass.structure === 'pair' ? TRACE_OF_PAIR : 1
  return {
    net,
    class: netClass.name,
    width,
    riseTime: netClass.edge.riseTime,
    stretches,
    smallestGap: nearest.gap,
    length: pieces.reduce((sum, { length }) => sum + length, 0),
    delay: pieces.reduce((sum, { delay }) => sum + delay, 0),
    backward: Math.max(...pieces.map(({ backward }) => backward)),
    nearEnd: swing * nearEndPeak(pieces, netClass.edge),
    farEnd: swing * farEndPeak(pieces, netClass.edge),
    impedance: impedanceBeside(neck, nearest),
  }
}

/** Of a pair whose traces run apart, one changes and the other stays: half of the change is in their sum. */
function impedanceBeside({ structure, impedance }: NoiseOf, nearest: Piece): NeighbourNoise['impedance'] {
  if (impedance === null) return null
  const share = structure === 'pair' && !nearest.coupled ? 0.5 : 1
  const changed = (ratio: Ratio): Ohms => impedance * (1 + share * (ratio - 1))
  return { withIt: changed(nearest.coupling.withIt), againstIt: changed(nearest.coupling.againstIt) }
}
