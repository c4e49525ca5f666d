import { describe, expect, it } from 'vitest'
import type { Board } from '../src/board/board.ts'
import { readBoard } from '../src/board/readBoard.ts'
import { escapePackage } from '../src/escape/escapePackage.ts'
import { escapesOf, routesOf } from '../src/escapes.ts'
import { mainWidth } from '../src/impedance/solvedMain.ts'
import { largeBoard } from './bench/largeBoard.ts'
import { boardOf, packageOf, um } from './escape/fixtures.ts'

const board = boardOf(packageOf(['sssss', 's...s', 's.s.s', 's...s', 'sssss']))

function planned(changed: Board): unknown {
  return changed.packages.map((pack) =>
    escapePackage(changed, pack, (netClass, layer) => mainWidth(changed, netClass, layer)),
  )
}

/** Values that have no text of their own in JSON, with their paths. */
function strangers(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path]
  if (value === null || ['string', 'boolean', 'undefined'].includes(typeof value)) return []
  if (typeof value !== 'object') return [path]
  const isMap = value instanceof Map || value instanceof Set
  const plain = isMap || Array.isArray(value) || Object.getPrototypeOf(value) === Object.prototype
  const parts = isMap ? [...(value as Iterable<unknown>)].entries() : Object.entries(value)
  return plain ? [...parts].flatMap(([key, part]) => strangers(part, `${path}.${key}`)) : [path]
}

const CHANGES: readonly (readonly [string, (original: Board) => Board])[] = [
  [
    'the side that a net is to leave through',
    ({ packages, ...rest }) => ({
      ...rest,
      packages: packages.map((pack) => ({
        ...pack,
        escape: { ...pack.escape, exitSides: new Map([[rest.nets[0]?.name ?? '', 'bottom' as const]]) },
      })),
    }),
  ],
  [
    'the width of the necks of a class',
    ({ classes, ...rest }) => ({
      ...rest,
      classes: classes.map((each) => ({ ...each, neck: { ...each.neck, width: um(90) } })),
    }),
  ],
  [
    'the pads of a via',
    ({ vias, ...rest }) => ({
      ...rest,
      vias: vias.map((each) => ({ ...each, padDiameters: each.padDiameters.map((size) => size * 0.8) })),
    }),
  ],
  [
    'a claim',
    ({ packages, ...rest }) => ({
      ...rest,
      packages,
      claims: packages.map(({ name }) => ({
        package: name,
        technology: 'through' as const,
        signalLayers: 9,
        source: 'invented',
      })),
    }),
  ],
]

describe('the escapes of a board', () => {
  it('are planned once for equal descriptions', () => {
    expect(escapesOf(structuredClone(board))).toBe(escapesOf(board))
  })

  it('are those of each package by itself', () => {
    expect(escapesOf(board)).toEqual(planned(board))
    expect(routesOf(escapesOf(board)).length).toBeGreaterThan(0)
  })

  it.each(CHANGES)('are planned anew when %s changes', (_, change) => {
    const before = escapesOf(board)
    const changed = change(board)
    const after = escapesOf(changed)
    expect(after).not.toEqual(before)
    expect(after).toEqual(planned(changed))
    expect(escapesOf(board)).toEqual(before)
  })

  it('are the same again for a board that was forgotten', () => {
    const before = escapesOf(board)
    for (let turn = 0; turn < 4; turn += 1) escapesOf({ ...board, title: `revision ${turn}` })
    const again = escapesOf(board)
    expect(again).not.toBe(before)
    expect(again).toEqual(before)
  })

  it('depend on nothing that the key does not hold: a board is objects, lists, maps, text and finite numbers', async () => {
    const { board: read } = await readBoard(largeBoard())
    expect(read).not.toBeNull()
    expect(strangers(read)).toEqual([])
    expect(strangers({ packages: [{ at: NaN, of: () => 1, on: new Date(0) }] })).toHaveLength(3)
  })
})
