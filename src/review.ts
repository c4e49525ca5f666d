/**
 * The review of a board, from description to findings:
 *
 *     Board ─► PackageEscape[] ─► Route[] ─► LineTable ─► NetSignal[], Skew[] ─► Finding[]
 *               escape/            routes/    section/      signal/              findings/
 *                                             impedance/
 *
 * tolerance/ runs section/ and impedance/ again at the ends of every tolerance, dielectric/ with another thickness; a
 * finding's remedy runs them again with another width or layer.
 */
import type { Board } from './board/board.ts'
import { lineThicknesses } from './dielectric/lineThicknesses.ts'
import type { ThicknessChoice } from './dielectric/thicknessChoice.ts'
import type { PackageEscape } from './escape/escape.ts'
import { escapesOf, routesOf } from './escapes.ts'
import { findFaults } from './findings/findFaults.ts'
import type { Finding } from './findings/finding.ts'
import type { LineTable } from './impedance/lineTable.ts'
import { tabulateLines } from './impedance/tabulateLines.ts'
import type { Route } from './routes/route.ts'
import type { NeckCoupling } from './signal/neckCoupling.ts'
import { neckCouplings } from './signal/neckCouplings.ts'
import type { NetSignal, Skew } from './signal/netSignal.ts'
import { netSignals } from './signal/netSignals.ts'
import { NetVias } from './signal/netVias.ts'
import { skews as skewsOf } from './signal/skews.ts'
import { lineSpreads } from './tolerance/lineSpreads.ts'
import type { LineSpread } from './tolerance/lineSpreads.ts'
import { rerunOn } from './rerun.ts'

export interface Review {
  readonly board: Board
  readonly escapes: readonly PackageEscape[]
  readonly routes: readonly Route[]
  readonly lines: LineTable
  readonly signals: readonly NetSignal[]
  readonly skews: readonly Skew[]
  readonly couplings: readonly NeckCoupling[]
  readonly spreads: readonly LineSpread[]
  readonly thicknesses: readonly ThicknessChoice[]
  readonly findings: readonly Finding[]
}

export function review(board: Board): Review {
  const escapes = escapesOf(board)
  const routes = routesOf(escapes)
  const lines = tabulateLines(board, routes)
  const vias = new NetVias(board, routes)
  const signals = netSignals(board, routes, lines, vias)
  const skews = skewsOf(board, signals)
  const couplings = neckCouplings(board, routes, lines)
  const spreads = lineSpreads(board, lines)
  const thicknesses = lineThicknesses(board, lines)
  const rerun = rerunOn(board, vias)
  const findings = findFaults({ board, escapes, routes, lines, signals, skews, couplings, spreads, rerun })
  return { board, escapes, routes, lines, signals, skews, couplings, spreads, thicknesses, findings }
}
