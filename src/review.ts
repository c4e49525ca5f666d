/**
 * The review of a board, from description to findings:
 *
 *     Board ─► PackageEscape[] ─► Route[] ─► LineTable ─► NetSignal[], Skew[] ─► Finding[]
 *               escape/            routes/    section/      signal/              findings/
 *                                             impedance/
 */
import type { Board } from './board/board.ts'
import type { ThicknessChoice } from './dielectric/thicknessChoice.ts'
import type { PackageEscape } from './escape/escape.ts'
import type { Finding } from './findings/finding.ts'
import type { LineTable } from './impedance/lineTable.ts'
import type { Route } from './routes/route.ts'
import type { NetSignal, Skew } from './signal/netSignal.ts'

export interface Review {
  readonly board: Board
  readonly escapes: readonly PackageEscape[]
  readonly routes: readonly Route[]
  readonly lines: LineTable
  readonly signals: readonly NetSignal[]
  readonly skews: readonly Skew[]
  readonly thicknesses: readonly ThicknessChoice[]
  readonly findings: readonly Finding[]
}
