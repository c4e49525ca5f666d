import fc from 'fast-check'
import type { Board } from '../../src/board/board.ts'
import type { Package } from '../../src/board/packages.ts'
import type { ViaTechnology } from '../../src/escape/escape.ts'
import {
  boardOf,
  copperStack,
  fabrication,
  netClass,
  netOf,
  packageOf,
  padsOf,
  pairOf,
  um,
  via,
} from './fixtures.ts'
import type { Supply } from './planChecker.ts'

export interface Case {
  readonly board: Board
  readonly pack: Package
  readonly technology: ViaTechnology
  readonly supply: Supply
}

/** Random ball maps on random boards, some with neighbours in pairs, some with layers asked for. */
export const cases = fc
  .record({
    rows: fc.integer({ min: 1, max: 12 }),
    columns: fc.integer({ min: 1, max: 12 }),
    letters: fc.array(fc.constantFrom('s', 's', 's', 's', 'g', 'p', 'u', '.', '.'), {
      minLength: 144,
      maxLength: 144,
    }),
    emptyColumns: fc.array(fc.integer({ min: 0, max: 11 }), { maxLength: 5 }),
    offGrid: fc.option(fc.integer({ min: 20, max: 400 }), { freq: 4 }),
    wideNets: fc.integer({ min: 1, max: 5 }),
    pitchX: fc.integer({ min: 500, max: 1270 }),
    pitchY: fc.integer({ min: 500, max: 1270 }),
    viaPitch: fc.constantFrom(1, 1, 1.2),
    land: fc.integer({ min: 200, max: 500 }),
    pad: fc.integer({ min: 200, max: 550 }),
    width: fc.option(fc.integer({ min: 60, max: 150 })),
    gap: fc.integer({ min: 60, max: 150 }),
    pads: fc.constantFrom('kept' as const, 'removed' as const),
    placement: fc.constantFrom('dog-bone' as const, 'in pad' as const),
    technology: fc.constantFrom('through' as const, 'blind' as const),
    side: fc.constantFrom('top' as const, 'bottom' as const),
    layers: fc.integer({ min: 1, max: 6 }),
    pairs: fc.boolean(),
    askedLayer: fc.option(fc.integer({ min: 1, max: 6 }), { freq: 4 }),
  })
  .map((draft): Case => {
    // Neither pads nor lands touch each other; boards where they do have tests of their own.
    const narrow = Math.min(draft.pitchX, draft.pitchY)
    const pad = Math.min(draft.pad, narrow - 60)
    const land = Math.min(draft.land, narrow - 10)
    const drawing = Array.from({ length: draft.rows }, (_, row) =>
      Array.from({ length: draft.columns }, (_unused, column) =>
        draft.emptyColumns.includes(column) ? '.' : (draft.letters[row * 12 + column] ?? 's'),
      ).join(''),
    )
    const pitch = { x: um(draft.pitchX), y: um(draft.pitchY) }
    const regular = packageOf(drawing, {
      pitch,
      viaPitch: { x: pitch.x * draft.viaPitch, y: pitch.y * draft.viaPitch },
      landDiameter: um(land),
      maskOpening: um(land + 50),
      viaPlacement: draft.placement,
      placement: { origin: { x: 0, y: 0 }, side: draft.side, rotationDegrees: 0 },
    })
    const pack = draft.offGrid === null ? regular : shifted(regular, um(draft.offGrid))
    const both = { outer: um(draft.gap), inner: um(draft.gap) }
    const top = draft.side === 'top'
    const blind = Array.from({ length: Math.max(0, draft.layers - 1) }, (_, index) =>
      via(`blind ${index}`, {
        kind: 'blind',
        firstLayer: top ? 1 : draft.layers - 1 - index,
        lastLayer: top ? index + 2 : draft.layers,
        padDiameters: padsOf(top ? index + 2 : index + 2, pad + 10 * index),
        drilledDiameter: um(100 + 10 * index),
        unconnectedInnerPads: draft.pads,
      }),
    )
    const through = via('through', {
      lastLayer: draft.layers,
      padDiameters: padsOf(draft.layers, pad),
      unconnectedInnerPads: draft.pads,
    })
    const names = pack.balls.flatMap(({ use, net }) => (use === 'signal' && net !== null ? [net] : []))
    const width = draft.width === null ? null : um(draft.width)
    const board = boardOf(pack, {
      stackup: copperStack(draft.layers),
      vias: [through, ...blind],
      fabrication: fabrication({ traceGap: both, traceToPad: both }),
      classes: [
        netClass('single', { neck: { width, gap: null } }),
        netClass('wide', { neck: { width: um(180), gap: null } }),
        netClass('pair', { structure: 'pair', neck: { width, gap: um(draft.gap) } }),
      ],
      nets: draft.pairs
        ? pairedNets(names)
        : names.map((name, index) =>
            netOf(name, index % draft.wideNets === 1 ? 'wide' : 'single', { exitLayer: draft.askedLayer }),
          ),
    })
    const deepest =
      draft.technology === 'through' || blind.length === 0 ? 'through' : (blind.at(-1)?.name ?? 'through')
    return { board, pack, technology: draft.technology, supply: () => (draft.layers > 1 ? [deepest] : []) }
  })

/** Every other row moved sideways, as in a staggered array. */
function shifted(pack: Package, by: number): Package {
  const balls = pack.balls.map((ball) => (ball.row % 2 === 1 ? { ...ball, x: ball.x + by } : ball))
  return { ...pack, balls, onGrid: false }
}

function pairedNets(names: readonly string[]): Board['nets'] {
  return names.flatMap((name, index) => {
    const next = names[index + 1]
    if (index % 2 === 1) return []
    return next === undefined ? [netOf(name)] : pairOf(name, next)
  })
}
