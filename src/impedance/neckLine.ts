import type { Board } from '../board/board.ts'
import type { NetClass } from '../board/nets.ts'
import type { Stackup } from '../board/stackup.ts'
import type { NeckStretch, Route } from '../routes/route.ts'
import type { CrossSection, LineRequest } from '../section/crossSection.ts'
import { deriveSection } from '../section/deriveSection.ts'
import type { Metres } from '../units/quantity.ts'
import { amongVias } from './amongVias.ts'
import type { LineImpedance } from './estimate.ts'
import { estimateLine, uncoupledPair } from './estimateLine.ts'
import { runningValue, type StretchLine } from './lineTable.ts'

/** The line of a class as any other: where it runs, and how wide. */
export interface ClassLine {
  readonly layer: number
  readonly width: Metres
  /** Null for single traces, and for pairs whose traces are apart. */
  readonly gap: Metres | null
  readonly coplanarGap: Metres | null
}

/** Width in metres at which a neck is computed: one that takes what its channel gives is no wider than its main route. */
export function neckWidth({ neck }: NetClass, width: Metres, mainWidth: Metres | null): Metres {
  return neck.width !== null || mainWidth === null ? width : Math.min(width, mainWidth)
}

/** Gap in metres of a stretch of a route; null where its traces are apart. */
export function gapAlong({ gap }: Pick<Route, 'gap'>, { coupled }: NeckStretch): Metres | null {
  return coupled ? gap : null
}

/**
 * A line of a class between solid planes with nothing beside it; of a class of pairs the pair's, without `gap` that of two
 * traces apart. Where the stackup cannot carry it, why. Throws as `estimateLine` does.
 */
export function classLine(
  board: Pick<Board, 'stackup' | 'analysis'>,
  netClass: NetClass,
  line: ClassLine,
): { impedance: LineImpedance | null; refusal: string | null } {
  const section = sectionOrRefusal(board.stackup, { ...line, broadsideLayer: null })
  if (typeof section === 'string') return { impedance: null, refusal: section }
  const impedance = estimateLine(section, board.analysis.frequency)
  return { impedance: netClass.structure === 'pair' ? uncoupledPair(impedance) : impedance, refusal: null }
}

/** A line as a stretch of a neck has it, with what stands beside that. */
export function alongStretch(
  board: Board,
  line: LineImpedance,
  width: Metres,
  stretch: NeckStretch,
): StretchLine {
  const loaded = amongVias(board, line, stretch)
  return { line, width, loaded, runs: runningValue(line, loaded) }
}

/** A width that the stackup cannot carry is a fact for the table; anything else that fails is a fault of ours. */
function sectionOrRefusal(stackup: Stackup, request: LineRequest): CrossSection | string {
  try {
    return deriveSection(stackup, request)
  } catch (error) {
    if (error instanceof RangeError) return error.message
    throw error
  }
}
