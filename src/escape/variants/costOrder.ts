import type { Board } from '../../board/board.ts'
import { viaOf } from '../../board/lookup.ts'
import type { Package } from '../../board/packages.ts'
import type { ViaType } from '../../board/vias.ts'
import { formatLength } from '../../units/format.ts'
import type { Metres } from '../../units/quantity.ts'
import type { EscapePlan } from '../escape.ts'
import { pressingsOf } from './inventedVias.ts'
import { leastPad } from './viaSize.ts'

/** What the order of cost goes by, the first that differs deciding. */
export interface CostMarks {
  readonly signalLayers: number
  readonly vias: 'no vias' | 'through' | 'blind or buried' | 'microvias' | 'stacked microvias'
  /** Null where no order of lamination makes the holes. */
  readonly pressings: number | null
  readonly viasInLands: boolean
  readonly fineTrace: boolean
  readonly leastPads: boolean
}

const KINDS: readonly CostMarks['vias'][] = [
  'no vias',
  'through',
  'blind or buried',
  'microvias',
  'stacked microvias',
]

/** Traces narrower than this cost more: 4 mil. */
const FINE_TRACE: Metres = 101.6e-6

/** The rules of the order, for print beside it. */
export const COST_RULES: readonly string[] = [
  'Only ways that let every net out have a place in the order.',
  'First the signal layers used; then the vias: through before blind or buried, before microvias, before stacked microvias; then how often the board is pressed; then vias in the lands, which have to be filled and capped; then traces below 4 mil; then via pads as small as ring and registration allow.',
  'An order, not money: common practice, no source. A quotation decides.',
]

/** What a finished plan costs by, from the vias that it uses. */
export function costMarks(board: Board, pack: Package, plan: EscapePlan): CostMarks {
  const chains = [...new Set([...plan.routes, ...plan.supplies].flatMap(({ via }) => via ?? []))]
  const holes = chains.map((names) => names.split(' + ').map((name) => viaOf(board, name)))
  const vias = [...new Set(holes.flat())]
  const narrowest = plan.routes.reduce((least, { width }) => Math.min(least, width), Infinity)
  const tolerance = board.analysis.comparisonTolerance
  return {
    signalLayers: plan.layers.filter(({ escaped }) => escaped > 0).length,
    vias: KINDS[Math.max(0, ...holes.map(kindOf))] ?? 'no vias',
    pressings: pressingsOf(board, vias),
    viasInLands: vias.length > 0 && pack.viaPlacement === 'in pad',
    fineTrace: narrowest < FINE_TRACE - tolerance,
    leastPads: vias.some((via) =>
      via.padDiameters.some((pad) => pad <= leastPad(via, board.fabrication) + tolerance),
    ),
  }
}

/** Place of each among the others, 1 for the cheapest, equal ones alike; null stays null. */
export function costRanks(marks: readonly (CostMarks | null)[]): (number | null)[] {
  const keys = marks.map((each) => each && keyOf(each))
  const known = keys.filter((key) => key !== null)
  return keys.map((key) => key && 1 + known.filter((other) => isBefore(other, key)).length)
}

/** `3 signal layers, through vias, pressed once, traces below 4 mil`. */
export function costText(marks: CostMarks, board: Board): string {
  const { signalLayers, vias, pressings, viasInLands, fineTrace, leastPads } = marks
  return [
    `${signalLayers} signal ${signalLayers === 1 ? 'layer' : 'layers'}`,
    vias === 'through' || vias === 'blind or buried' ? `${vias} vias` : vias,
    pressedText(pressings),
    ...(viasInLands ? ['vias in the lands'] : []),
    ...(fineTrace ? [`traces below ${formatLength(FINE_TRACE, board.displayUnit)}`] : []),
    ...(leastPads ? ['smallest via pads'] : []),
  ].join(', ')
}

function pressedText(pressings: number | null): string {
  if (pressings === null) return 'no order of lamination known'
  return pressings === 1 ? 'pressed once' : `pressed ${pressings} times`
}

function kindOf(chain: readonly ViaType[]): number {
  const stacked = chain.filter(({ kind, arrangement }) => kind === 'microvia' && arrangement === 'stacked')
  const laddered = stacked.reduce((sum, via) => sum + via.lastLayer - via.firstLayer, 0)
  if (laddered > 1) return KINDS.indexOf('stacked microvias')
  if (chain.some(({ kind }) => kind === 'microvia')) return KINDS.indexOf('microvias')
  return KINDS.indexOf(chain.every(({ kind }) => kind === 'through') ? 'through' : 'blind or buried')
}

function keyOf(marks: CostMarks): number[] {
  const { signalLayers, vias, pressings, viasInLands, fineTrace, leastPads } = marks
  return [
    signalLayers,
    KINDS.indexOf(vias),
    pressings ?? Infinity,
    Number(viasInLands),
    Number(fineTrace),
    Number(leastPads),
  ]
}

function isBefore(one: readonly number[], other: readonly number[]): boolean {
  const place = one.findIndex((value, index) => value !== other[index])
  return place >= 0 && (one[place] ?? 0) < (other[place] ?? 0)
}
