import { describe, expect, it } from 'vitest'
import type { Board } from '../../src/board/board.ts'
import { escapeTrials } from '../../src/findings/escapeTrials.ts'
import { exampleBoard } from '../board/exampleBoard.ts'
import { um } from '../signal/fixtures.ts'
import { contextOf, throughVia, withFabrication, withPads, withVia } from './fixtures.ts'

const base = await exampleBoard()
const kept = withFabrication(
  withVia(base, { ...withPads(throughVia(base), um(600)), unconnectedInnerPads: 'kept' }),
  {
    annularRing: { ipcClass: 3, external: um(50), internal: um(25), source: 'test' },
    registration: um(76),
  },
)

/** Boards that are planned again, in their order. */
function tried(board: Board, helps: (tries: number) => boolean): Board[] {
  const boards: Board[] = []
  const context = contextOf(board)
  const [pack] = board.packages
  const [escape] = context.escapes
  if (pack === undefined || escape === undefined) throw new Error('no package')
  const rerun = {
    ...context.rerun,
    escape: (changed: Board) => {
      boards.push(changed)
      return escape
    },
  }
  escapeTrials({ ...context, rerun }, pack, () => helps(boards.length))
  return boards
}

describe('planning again', () => {
  const [together, necks, bare, pads] = tried(kept, () => true)

  it('makes all changes together first, then one by one', () => {
    expect(tried(kept, () => true)).toHaveLength(4)
    expect(together?.classes[0]?.neck.width).toBe(base.fabrication.traceWidth.outer)
    expect(together?.vias[0]?.unconnectedInnerPads).toBe('removed')
    expect(necks?.vias).toEqual(kept.vias)
    expect(necks?.classes[0]?.neck.width).toBe(base.fabrication.traceWidth.outer)
    expect(bare?.classes).toEqual(kept.classes)
    expect(bare?.vias[0]?.unconnectedInnerPads).toBe('removed')
  })

  it('shrinks pads to what their ring needs after the shift of the layers', () => {
    // 0.2 mm drilled with 25 um inside; 0.15 mm finished with 50 um outside; 76 um of shift: 402 um.
    for (const pad of pads?.vias[0]?.padDiameters ?? [NaN]) expect(pad).toBeCloseTo(um(402), 9)
  })

  it('stops after all changes together where these do not help', () => {
    expect(tried(kept, () => false)).toHaveLength(1)
  })

  it('makes no change that changes nothing', () => {
    const fine = withVia(kept, { ...withPads(throughVia(kept), um(400)), unconnectedInnerPads: 'removed' })
    const narrow = {
      ...fine,
      classes: fine.classes.map((each) => ({ ...each, neck: { ...each.neck, width: um(80) } })),
    }
    expect(tried(narrow, () => true)).toEqual([])
  })
})
