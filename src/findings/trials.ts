import type { NetClass } from '../board/nets.ts'
import type { Stackup } from '../board/stackup.ts'
import type { Modes } from '../impedance/estimate.ts'
import type { LineEntry, RunningValue } from '../impedance/lineTable.ts'
import type { LineRequest } from '../section/crossSection.ts'
import type { Metres, Ohms, Ratio, SecondsPerMetre } from '../units/quantity.ts'
import { ifSolvable } from '../numerics/ifSolvable.ts'
import type { FindingContext } from './context.ts'
import { drawnNearest, isBelow } from './drawn.ts'

/** A line tried for a remedy, as the class sees it. */
export interface TriedLine {
  /** Differential for a pair, coupled or not. */
  readonly impedance: Ohms
  readonly band: Ratio
  readonly delay: SecondsPerMetre
}

/** A line to try. */
export interface TrialRequest extends LineRequest {
  /** Of a neck among vias: loaded over solid impedance, taken as it is now. Left out where nothing stands beside. */
  readonly loading?: Ratio
}

/** The request that made a line of the table; null where it has no width. */
export function requestOf(entry: LineEntry, netClass: NetClass): TrialRequest | null {
  if (entry.width === null) return null
  const coplanarGap = entry.stretch === 'main' ? netClass.main.coplanarGap : null
  return {
    layer: entry.layer,
    width: entry.width,
    gap: entry.gap,
    coplanarGap,
    broadsideLayer: null,
    ...(entry.loaded === null ? {} : { loading: entry.loaded.ratio }),
  }
}

/** Null where the stackup cannot carry the line, e.g. because it would etch away. */
export function tryLine(
  context: FindingContext,
  netClass: NetClass,
  request: TrialRequest,
): TriedLine | null {
  return ifSolvable(() => seenBy(netClass, request, context.rerun.line(request)))
}

/** Lines near a present one, nearly: for searches whose result is tried again. */
export function tryNear(
  context: FindingContext,
  netClass: NetClass,
  present: TrialRequest,
): (request: TrialRequest) => TriedLine | null {
  const near = ifSolvable(() => context.rerun.lineNear(present))
  return (request) => near && ifSolvable(() => seenBy(netClass, request, near(request)))
}

/** The same on another stackup. */
export function tryLineOn(
  context: FindingContext,
  stackup: Stackup,
  netClass: NetClass,
  request: TrialRequest,
): TriedLine | null {
  return ifSolvable(() => seenBy(netClass, request, context.rerun.lineOn(stackup, request)))
}

/** Width that nearly meets a target, everything else as requested. */
export function tryWidth(
  context: FindingContext,
  netClass: NetClass,
  request: TrialRequest,
  target: Ohms,
): Metres | null {
  return ifSolvable(() => context.rerun.widthFor(request, target / scaleOf(netClass, request)))
}

/**
 * Thickness of the dielectric next to the trace that meets a target, to the printed digit, and the line on it; null
 * where nothing meets the target, or only less than the fabricator presses.
 */
export function drawnThickness(
  context: FindingContext,
  netClass: NetClass,
  request: TrialRequest,
  target: Ohms,
): (TriedLine & { readonly dielectric: string; readonly thickness: Metres }) | null {
  const solved = ifSolvable(() => context.rerun.thicknessFor(request, target / scaleOf(netClass, request)))
  if (solved === null) return null
  const thickness = drawnNearest(context.board, solved.thickness)
  if (isBelow(thickness, context.board.fabrication.minDielectric)) return null
  const stackup = withDielectric(context.board.stackup, solved.dielectric, thickness)
  const line = tryLineOn(context, stackup, netClass, request)
  return line && { ...line, dielectric: solved.dielectric, thickness }
}

function withDielectric(stackup: Stackup, name: string, thickness: Metres): Stackup {
  return {
    ...stackup,
    layers: stackup.layers.map((part) =>
      part.kind === 'dielectric' && part.name === name ? { ...part, thickness } : part,
    ),
  }
}

/** A pair that is not coupled is two lines in series, and vias load a neck: the stages compute one line alone. */
function scaleOf(netClass: NetClass, request: TrialRequest): Ratio {
  const traces = netClass.structure === 'pair' && request.gap === null ? 2 : 1
  return traces * (request.loading ?? 1)
}

function seenBy(netClass: NetClass, request: TrialRequest, line: RunningValue): TriedLine {
  return {
    impedance: line.impedance * scaleOf(netClass, request),
    band: line.band,
    delay: line.delay,
  }
}

/** Line impedance of a single trace, differential of a pair. */
export function verdictOfModes(modes: Modes): Ohms {
  return modes.kind === 'single' ? modes.line.impedance : 2 * modes.odd.impedance
}
