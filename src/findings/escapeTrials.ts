import { holesNamed } from '../board/lookup.ts'
import type { Board } from '../board/board.ts'
import type { Package } from '../board/packages.ts'
import type { PackageEscape, ViaTechnology } from '../escape/escape.ts'
import { boardIndex } from './boardIndex.ts'
import type { FindingContext } from './context.ts'
import type { Measure } from './finding.ts'
import { metres, words } from './measure.ts'
import { ifSolvable } from '../numerics/ifSolvable.ts'

/** A change that may let more balls out, and the escape planned again with it. */
export interface EscapeTrial {
  readonly action: string
  readonly value: Measure
  readonly escape: PackageEscape
}

/**
 * Plans a package again with necks as narrow as the fabricator makes, with the pads of unconnected vias
 * removed, with via pads no larger than their ring needs after the layers have shifted; first with all of
 * these together and, only if that `helps`, with each by itself, because a plan takes its time.
 */
export function escapeTrials(
  context: FindingContext,
  pack: Package,
  helps: (escape: PackageEscape) => boolean,
): EscapeTrial[] {
  const changes = [narrowNecks(context, pack), barePads(context, pack), smallPads(context, pack)].filter(
    (change) => change !== null,
  )
  const [first, ...more] = changes
  if (first === undefined) return []
  if (more.length === 0) return trialOf(context, pack, first).filter(({ escape }) => helps(escape))
  const together: Change = {
    action: changes.map(({ action, figure }) => `${action}${figure}`).join(', '),
    figure: '',
    value: words(''),
    on: (board) => changes.reduce((changed, change) => change.on(changed), board),
  }
  const all = trialOf(context, pack, together).filter(({ escape }) => helps(escape))
  if (all.length === 0) return []
  const each = changes.flatMap((change) => trialOf(context, pack, change))
  return [...each.filter(({ escape }) => helps(escape)), ...all]
}

const plans = new WeakMap<FindingContext, Map<string, PackageEscape | null>>()

/** Planned once a context, whichever rule asks. */
function trialOf(context: FindingContext, pack: Package, { action, value, on }: Change): EscapeTrial[] {
  const known = plans.get(context) ?? new Map<string, PackageEscape | null>()
  plans.set(context, known)
  const key = `${pack.name}|${action}`
  const escape = known.has(key)
    ? (known.get(key) ?? null)
    : ifSolvable(() => context.rerun.escape(on(context.board), pack.name))
  known.set(key, escape)
  return escape === null ? [] : [{ action, value, escape }]
}

interface Change {
  readonly action: string
  /** Words in the place of the value where several changes share a line. */
  readonly figure: string
  readonly value: Measure
  readonly on: (board: Board) => Board
}

function narrowNecks(context: FindingContext, pack: Package): Change | null {
  const { traceWidth } = context.board.fabrication
  const width = Math.max(traceWidth.outer, traceWidth.inner)
  const { classOfNet } = boardIndex(context)
  const used = new Set(pack.balls.map(({ net }) => (net === null ? undefined : classOfNet.get(net)?.name)))
  const wider = context.board.classes.filter(
    (netClass) => used.has(netClass.name) && (netClass.neck.width === null || netClass.neck.width > width),
  )
  if (wider.length === 0) return null
  return {
    action: 'make every neck as narrow as the fabricator does,',
    figure: ' on outer and inner layers',
    value: metres('trace width', width),
    on: (board) => ({
      ...board,
      classes: board.classes.map((netClass) =>
        wider.some(({ name }) => name === netClass.name)
          ? { ...netClass, neck: { ...netClass.neck, width } }
          : netClass,
      ),
    }),
  }
}

function barePads(context: FindingContext, pack: Package): Change | null {
  const vias = holesNamed(context.board, pack.via).filter((via) => via.unconnectedInnerPads === 'kept')
  if (vias.length === 0) return null
  return {
    action: 'remove the pads of unconnected vias',
    figure: '',
    value: words(''),
    on: (board) => ({
      ...board,
      vias: board.vias.map((via) =>
        vias.some(({ name }) => name === via.name) ? { ...via, unconnectedInnerPads: 'removed' } : via,
      ),
    }),
  }
}

function smallPads(context: FindingContext, pack: Package): Change | null {
  const { annularRing, registration } = context.board.fabrication
  const pads = new Map(
    holesNamed(context.board, pack.via).map((via) => [
      via.name,
      Math.max(
        via.drilledDiameter + 2 * (annularRing.internal + registration),
        via.finishedDiameter + 2 * (annularRing.external + registration),
      ),
    ]),
  )
  const smaller = context.board.vias.some((via) =>
    via.padDiameters.some((pad) => pad > (pads.get(via.name) ?? Infinity)),
  )
  if (!smaller) return null
  return {
    action: 'make via pads no larger than their ring needs,',
    figure: ' with the layers shifted as far as stated',
    value: metres('pad diameter', Math.max(...pads.values())),
    on: (board) => ({
      ...board,
      vias: board.vias.map((via) => ({
        ...via,
        padDiameters: via.padDiameters.map((pad) => Math.min(pad, pads.get(via.name) ?? Infinity)),
      })),
    }),
  }
}

/** Balls that a plan leaves inside; null where there is no such plan. */
export function leftInside(escape: PackageEscape, technology: ViaTechnology): number | null {
  return escape.plans.find((plan) => plan.technology === technology)?.unescaped.length ?? null
}
