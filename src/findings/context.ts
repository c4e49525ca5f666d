import type { Board } from '../board/board.ts'
import type { Stackup } from '../board/stackup.ts'
import type { PackageEscape } from '../escape/escape.ts'
import type { LineImpedance } from '../impedance/estimate.ts'
import type { LineTable, RunningValue } from '../impedance/lineTable.ts'
import type { LoadedLine, Passage } from '../impedance/amongVias.ts'
import type { ViaLine } from '../impedance/viaLine.ts'
import type { Route } from '../routes/route.ts'
import type { LineRequest } from '../section/crossSection.ts'
import type { NeighbourChange } from '../signal/nearEndAfter.ts'
import type { NeckCoupling } from '../signal/neckCoupling.ts'
import type { NeckCase } from '../signal/neckReflection.ts'
import type { NetSignal, PeakReflection, Skew } from '../signal/netSignal.ts'
import type { LineSpread } from '../tolerance/lineSpreads.ts'
import type { Metres, Ohms, Ratio } from '../units/quantity.ts'

/** What the rules look at, and the earlier stages they may run again to compute a remedy. */
export interface FindingContext {
  readonly board: Board
  readonly escapes: readonly PackageEscape[]
  readonly routes: readonly Route[]
  readonly lines: LineTable
  readonly signals: readonly NetSignal[]
  readonly skews: readonly Skew[]
  readonly couplings: readonly NeckCoupling[]
  readonly spreads: readonly LineSpread[]
  readonly rerun: Rerun
}

export interface Rerun {
  /** The stackup as it is, another line. */
  line(request: LineRequest): RunningValue
  /** Lines near a present one, quickly and nearly: what is found so has to be run by `line`. */
  lineNear(present: LineRequest): (request: LineRequest) => RunningValue
  /** Width that nearly meets the target, sought from the one requested; null where none does. */
  widthFor(request: LineRequest, target: Ohms): Metres | null
  /** Thickness of the dielectric between trace and nearest plane that nearly meets the target; null where none does. */
  thicknessFor(
    request: LineRequest,
    target: Ohms,
  ): { readonly dielectric: string; readonly thickness: Metres } | null
  /** A line on another stackup, e.g. with one dielectric changed. */
  lineOn(stackup: Stackup, request: LineRequest): RunningValue
  /** A line with what stands beside necks on a changed board; null where nothing does. */
  amongVias(board: Board, line: LineImpedance, passage: Passage): LoadedLine | null
  /** Peak that a neck sends back into the main route, main route on both sides. */
  neckBetweenMain(neck: NeckCase): PeakReflection
  /** Peak of the change that a neck makes to the reflection of the device behind it. */
  neckBeforeDevice(neck: NeckCase, device: Ohms): PeakReflection
  /** Near-end noise on a neck with the traces beside it moved or shortened; null where it cannot be solved. */
  nearEnd(coupling: NeckCoupling, change: NeighbourChange): Ratio | null
  /** The via of a route, to its own exit layer or to another one; null where it does not go there. */
  via(route: Route, exitLayer?: number): ViaLine | null
  /** The same with its hole drilled back to leave a stub; null where it is not one hole that hangs beyond. */
  viaDrilledBack(route: Route, residualStub: Metres): ViaLine | null
  /** The escape of one package on a changed board. */
  escape(board: Board, packageName: string): PackageEscape
}
