import type { Board } from '../../src/board/board.ts'
import type { Stackup } from '../../src/board/stackup.ts'
import type { ViaType } from '../../src/board/vias.ts'
import { withThickness } from '../../src/dielectric/withThickness.ts'
import type { PackageEscape } from '../../src/escape/escape.ts'
import { escapePackage } from '../../src/escape/escapePackage.ts'
import type { FindingContext, Rerun } from '../../src/findings/context.ts'
import type { Finding, Remedy } from '../../src/findings/finding.ts'
import type { LineTable, RunningValue } from '../../src/impedance/lineTable.ts'
import type { ViaTable } from '../../src/impedance/viaLine.ts'
import type { Route } from '../../src/routes/route.ts'
import type { CrossSection, LineRequest } from '../../src/section/crossSection.ts'
import { deriveSection } from '../../src/section/deriveSection.ts'
import { neckBeforeDevice, neckBetweenMain } from '../../src/signal/neckReflection.ts'
import { nearEndAfter } from '../../src/signal/nearEndAfter.ts'
import { neckCouplings } from '../../src/signal/neckCouplings.ts'
import { netSignals } from '../../src/signal/netSignals.ts'
import { skews } from '../../src/signal/skews.ts'
import type { LineSpread } from '../../src/tolerance/lineSpreads.ts'
import { NO_VIAS, modelLineOn, modelTable, modelWidth } from '../signal/fixtures.ts'

interface Draft {
  /** Those of the plan with the package's own vias where left out. */
  readonly routes?: readonly Route[]
  readonly escapes?: readonly PackageEscape[]
  readonly lines?: (board: Board, routes: readonly Route[]) => LineTable
  /** None that is known where left out. */
  readonly vias?: ViaTable
  /** None where left out. */
  readonly spreads?: (lines: LineTable) => LineSpread[]
}

/** Everything the rules see, with real plans and signals, and lines by the model of the tests. */
export function contextOf(board: Board, draft: Draft = {}): FindingContext {
  const escapes = draft.escapes ?? board.packages.map((pack) => escapePackage(board, pack))
  const routes = draft.routes ?? escapes.flatMap(chosenRoutes)
  const lines = (draft.lines ?? modelTable)(board, routes)
  const signals = netSignals(board, routes, lines, draft.vias ?? NO_VIAS)
  return {
    board,
    escapes,
    routes,
    lines,
    signals,
    skews: skews(board, signals),
    couplings: neckCouplings(board, routes, lines),
    spreads: draft.spreads?.(lines) ?? [],
    rerun: modelRerun(board, draft.vias ?? NO_VIAS),
  }
}

function chosenRoutes(escape: PackageEscape): readonly Route[] {
  return escape.plans.find((plan) => plan.technology === escape.chosen)?.routes ?? []
}

function modelValue(stackup: Stackup, request: LineRequest): RunningValue {
  const { impedance, delay, chosen } = modelLineOn(stackup, request)
  return { impedance, delay, band: chosen.claimedError }
}

function modelRerun(board: Board, vias: ViaTable): Rerun {
  return {
    via: (route, exitLayer) => vias.of(route, exitLayer),
    viaDrilledBack: (route, residualStub) => vias.drilledBack(route, residualStub),
    line: (request) => modelValue(board.stackup, request),
    lineOn: modelValue,
    lineNear: () => (request) => modelValue(board.stackup, request),
    widthFor: (request, target) => modelWidth(board.stackup, request, target),
    thicknessFor: (request, target) => modelThickness(board.stackup, request, target),
    amongVias: () => null,
    neckBetweenMain,
    neckBeforeDevice,
    nearEnd: (coupling, change) => nearEndAfter(board, coupling, change),
    escape: (changed, name) => {
      const pack = changed.packages.find((each) => each.name === name)
      if (pack === undefined) throw new RangeError(`no package ${name}`)
      return escapePackage(changed, pack)
    },
  }
}

/** Of the sheet towards the nearer plane, from 20 um to 0.6 mm. */
function modelThickness(
  stackup: Stackup,
  request: LineRequest,
  target: number,
): ReturnType<Rerun['thicknessFor']> {
  const dielectric = nearerSheet(deriveSection(stackup, request))
  const on = (thickness: number): Stackup => withThickness(stackup, dielectric, thickness)
  const at = (thickness: number): number => modelLineOn(on(thickness), request).impedance
  let [low, high] = [20e-6, 600e-6]
  if (at(low) > target || at(high) < target) return null
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2
    if (at(middle) < target) low = middle
    else high = middle
  }
  return { dielectric, thickness: low }
}

function nearerSheet({ below: [below], above: [above], planeAbove }: CrossSection): string {
  if (below === undefined) throw new Error('no dielectric below')
  const nearAbove = planeAbove !== null && above !== undefined && above.thickness < below.thickness
  return nearAbove ? above.name : below.name
}

/** The one finding there must be. */
export function only(findings: readonly Finding[]): Finding {
  const [finding, ...more] = findings
  if (finding === undefined || more.length > 0) {
    throw new Error(
      `expected one finding, got ${findings.map(({ code, subject }) => `${code} ${subject.name}`).join(', ') || 'none'}`,
    )
  }
  return finding
}

/** The remedy whose action says this. */
export function remedyOf(finding: Finding, action: RegExp): Remedy {
  const found = finding.remedies.find((remedy) => action.test(remedy.action))
  if (found === undefined) {
    throw new Error(
      `no remedy ${action.source} among: ${finding.remedies.map((remedy) => remedy.action).join('; ')}`,
    )
  }
  return found
}

export function withVia(board: Board, change: Partial<ViaType>, name = 'through via'): Board {
  if (!board.vias.some((via) => via.name === name)) throw new RangeError(`no via ${name}`)
  return { ...board, vias: board.vias.map((via) => (via.name === name ? { ...via, ...change } : via)) }
}

export function withFabrication(board: Board, change: Partial<Board['fabrication']>): Board {
  return { ...board, fabrication: { ...board.fabrication, ...change } }
}

export function withPackage(board: Board, change: Partial<Board['packages'][number]>): Board {
  return { ...board, packages: board.packages.map((pack) => ({ ...pack, ...change })) }
}

export function withPads(via: ViaType, diameter: number): ViaType {
  return { ...via, padDiameters: via.padDiameters.map(() => diameter) }
}

export function throughVia(board: Board): ViaType {
  const via = board.vias.find(({ name }) => name === 'through via')
  if (via === undefined) throw new Error('no through via')
  return via
}

export function detail(finding: Finding, what: RegExp): number {
  const found = finding.details.find((measure) => what.test(measure.what))
  if (found === undefined) throw new Error(`no detail ${what.source}`)
  return found.value
}

/** Another drill, the plating as it is. */
export function withDrill(board: Board, drilledDiameter: number): Board {
  const via = throughVia(board)
  const plating = via.drilledDiameter - via.finishedDiameter
  return withVia(board, { drilledDiameter, finishedDiameter: Math.max(0, drilledDiameter - plating) })
}
