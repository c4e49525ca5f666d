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

export interface MapCase {
  readonly board: Board
  readonly pack: Package
  readonly technology: ViaTechnology
}

/** Usual rules by pitch, in micrometres: common practice, no source. */
const RULES = [
  { pitch: 400, land: 200, drill: 100, pad: 200, width: 50, gap: 50, microvia: true },
  { pitch: 500, land: 250, drill: 100, pad: 250, width: 60, gap: 60, microvia: true },
  { pitch: 500, land: 230, drill: 150, pad: 300, width: 75, gap: 75, microvia: false },
  { pitch: 650, land: 300, drill: 200, pad: 400, width: 75, gap: 75, microvia: false },
  { pitch: 800, land: 380, drill: 200, pad: 450, width: 90, gap: 90, microvia: false },
  { pitch: 800, land: 400, drill: 250, pad: 480, width: 75, gap: 75, microvia: false },
  { pitch: 1000, land: 450, drill: 250, pad: 500, width: 100, gap: 100, microvia: false },
  { pitch: 1270, land: 600, drill: 300, pad: 600, width: 125, gap: 125, microvia: false },
] as const

/** Ball maps of 0.4 to 1.27 mm with missing balls, power and ground, through and blind vias, some nets in pairs. */
export const randomMaps = fc
  .record({
    rules: fc.constantFrom(...RULES),
    rows: fc.integer({ min: 2, max: 13 }),
    columns: fc.integer({ min: 2, max: 13 }),
    missing: fc.integer({ min: 0, max: 60 }),
    supplies: fc.integer({ min: 0, max: 60 }),
    dice: fc.array(fc.integer({ min: 0, max: 99 }), { minLength: 338, maxLength: 338 }),
    layers: fc.integer({ min: 1, max: 8 }),
    pads: fc.constantFrom('kept' as const, 'removed' as const),
    placement: fc.constantFrom('dog-bone' as const, 'in pad' as const),
    technology: fc.constantFrom('through' as const, 'blind' as const),
    paired: fc.boolean(),
  })
  .map(({ rules, dice, layers, ...draft }): MapCase => {
    const drawing = Array.from({ length: draft.rows }, (_, row) =>
      Array.from({ length: draft.columns }, (_unused, column) => {
        const place = 2 * (row * 13 + column)
        if ((dice[place] ?? 0) < draft.missing) return '.'
        const roll = dice[place + 1] ?? 0
        return roll < draft.supplies ? (roll % 2 === 0 ? 'g' : 'p') : 's'
      }).join(''),
    )
    const pitch = { x: um(rules.pitch), y: um(rules.pitch) }
    const pack = packageOf(drawing, {
      pitch,
      viaPitch: pitch,
      landDiameter: um(rules.land),
      maskOpening: um(rules.land + 50),
      viaPlacement: rules.microvia ? 'in pad' : draft.placement,
    })
    const hole = { drilledDiameter: um(rules.drill), unconnectedInnerPads: draft.pads }
    const kind = rules.microvia ? ('microvia' as const) : ('blind' as const)
    const blind = Array.from({ length: layers - 1 }, (_, index) =>
      via(`to ${index + 2}`, {
        kind,
        lastLayer: index + 2,
        padDiameters: padsOf(index + 2, rules.pad),
        ...hole,
      }),
    )
    const through = via('through', { lastLayer: layers, padDiameters: padsOf(layers, rules.pad), ...hole })
    const both = { outer: um(rules.gap), inner: um(rules.gap) }
    const neck = { width: um(rules.width), gap: um(rules.gap) }
    const names = pack.balls.flatMap(({ use, net }) => (use === 'signal' && net !== null ? [net] : []))
    const board = boardOf(pack, {
      stackup: copperStack(layers),
      vias: draft.technology === 'blind' ? [through, ...blind] : [through],
      fabrication: fabrication({
        traceWidth: { outer: um(50), inner: um(50) },
        traceGap: both,
        traceToPad: both,
        drillToCopper: um(rules.gap + 75),
      }),
      classes: [netClass('single', { neck }), netClass('pair', { structure: 'pair', neck })],
      nets: draft.paired ? inPairs(names) : names.map((name) => netOf(name)),
    })
    return { board, pack, technology: draft.technology }
  })

/** Every other two neighbours of a row are a pair. */
function inPairs(names: readonly string[]): Board['nets'] {
  return names.flatMap((name, index) => {
    const next = names[index + 1]
    if (index % 4 === 0 && next !== undefined) return pairOf(name, next)
    return index % 4 === 1 ? [] : [netOf(name)]
  })
}
