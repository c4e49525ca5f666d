import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { annularRingTooSmall } from '../../../src/findings/rules/annularRingTooSmall.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { um } from '../../signal/fixtures.ts'
import {
  contextOf,
  only,
  remedyOf,
  throughVia,
  withDrill,
  withFabrication,
  withPads,
  withVia,
} from '../fixtures.ts'

const base = await exampleBoard()
const MIL = 25.4e-6
const findings = (board: Board): ReturnType<typeof annularRingTooSmall> =>
  annularRingTooSmall(contextOf(board))
// Summit Interconnect citing IPC-6012E table 3-9: class 3 external 0.001969 in, internal 0.000975 in.
const CLASS_3 = { ipcClass: 3, external: 1.969 * MIL, internal: 0.975 * MIL, source: 'IPC-6012E' } as const
const class3 = withFabrication(base, { annularRing: CLASS_3, registration: 0 })
const padded = (board: Board, pad: number): Board => withVia(board, withPads(throughVia(board), pad))

describe('an annular ring', () => {
  it('is measured from the finished hole outside and from the drilled hole inside', () => {
    // 0.2 mm drilled, 0.15 mm finished. A pad of 0.249 mm leaves 49.5 um outside and 24.5 um inside.
    const rings = findings(padded(class3, um(249)))
    expect(rings.map(({ measured }) => measured.what)).toEqual([
      'external ring as drawn',
      'internal ring as drawn',
    ])
    expect(rings.map(({ measured }) => measured.value)).toEqual([
      expect.closeTo(um(49.5), 9),
      expect.closeTo(um(24.5), 9),
    ])
    expect(rings.every(({ severity }) => severity === 'error')).toBe(true)
  })

  it('of class 3 passes from 50 um outside and 25 um inside', () => {
    expect(findings(padded(class3, um(250.1)))).toEqual([])
  })

  it('vanishes at the pad, and at the drill, that it proposes', () => {
    const thin = padded(class3, um(249))
    for (const finding of findings(thin)) {
      const kind = finding.measured.what
      const again = (board: Board): string[] => findings(board).map(({ measured }) => measured.what)
      expect(again(padded(thin, remedyOf(finding, /pad/).value.value))).not.toContain(kind)
      expect(again(withDrill(thin, remedyOf(finding, /drill/).value.value))).not.toContain(kind)
    }
  })

  // Rush PCB capability table: an 8 mil drill needs an inner pad of 18 mil, where layers shift by 5 mil: tangency.
  it('is just left at tangency when layers shift by 5 mil under a pad of drill plus 10 mil', () => {
    const rush = withFabrication(withDrill(padded(base, 18 * MIL), 8 * MIL), {
      annularRing: { ipcClass: 2, external: 0, internal: 0, source: 'tangency' },
      registration: 5 * MIL,
    })
    expect(findings(rush)).toEqual([])
    expect(findings(padded(rush, 17.9 * MIL)).map(({ measured }) => measured.what)).toEqual([
      'internal ring with the layers shifted as far as stated',
    ])
  })

  it('after the shift is a warning for class 3 and a note for class 2', () => {
    const shifted = withFabrication(padded(class3, um(300)), { registration: um(76) })
    expect(findings(shifted).map(({ severity }) => severity)).toEqual(['warning', 'warning'])
    const relaxed = withFabrication(shifted, { annularRing: { ...CLASS_3, ipcClass: 2 } })
    expect(findings(relaxed).map(({ severity }) => severity)).toEqual(['note', 'note'])
  })

  it('proposes no pad that closes a channel', () => {
    const kept = withVia(padded(class3, um(420)), { unconnectedInnerPads: 'kept' })
    const large = withFabrication(kept, { annularRing: { ...CLASS_3, internal: um(300), external: 0 } })
    expect(only(findings(large)).remedies.some(({ action }) => /pad/.test(action))).toBe(false)
  })
})
