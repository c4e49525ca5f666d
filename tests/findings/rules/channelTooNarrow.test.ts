import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { channelTooNarrow } from '../../../src/findings/rules/channelTooNarrow.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { um, withClass } from '../../signal/fixtures.ts'
import {
  contextOf,
  only,
  remedyOf,
  throughVia,
  withFabrication,
  withPackage,
  withPads,
  withVia,
} from '../fixtures.ts'

// No pairs, so that only closed channels are found.
const single = await exampleBoard([
  ['{name: strobe, structure: pair, target: 90 ohm', '{name: strobe, structure: single, target: 50 ohm'],
  ['{name: serial, interface: pcie-gen3}', '{name: serial, structure: single, target: 50 ohm}'],
])
const findings = (board: Board): ReturnType<typeof channelTooNarrow> => channelTooNarrow(contextOf(board))
const neck = (width: number): Pick<Board['classes'][number], 'neck'> => ({ neck: { width, gap: null } })

/** Via pads of 0.66 mm, kept on inner layers, leave 0.14 mm of the 0.8 mm less two clearances of 76 um. */
const fat = withVia(single, { ...withPads(throughVia(single), um(660)), unconnectedInnerPads: 'kept' })

describe('a channel that no trace passes', () => {
  it('is found with what it lacks, by the rule that leaves least', () => {
    const [finding] = findings(fat)
    expect(finding?.measured.value).toBeCloseTo(um(800 - 660 - 2 * 76.2 - 80), 9)
    expect(finding?.measured.what).toMatch(/trace to pad/)
    expect(finding?.limit.value).toBe(0)
  })

  it('is not found where one trace passes, even to the micron', () => {
    expect(findings(single)).toEqual([])
    const exact = withClass(single, 'data', neck(um(800 - 500) - 2 * 76.2e-6))
    expect(findings(exact).filter(({ subject }) => subject.name === 'data')).toEqual([])
  })

  it('is a note while all balls of its class get out, which it says once for all classes and layers', () => {
    const finding = only(findings(fat))
    expect(finding.severity).toBe('note')
    expect(finding.subject.alike.length).toBeGreaterThan(3)
  })

  it('is a warning where balls stay inside and other channels are open, an error where none is', () => {
    const deep = withPackage(fat, {
      viaPlacement: 'in pad',
      balls: (fat.packages[0]?.balls ?? []).map((ball) =>
        // A block of signals right in the middle of the grid.
        ball.row >= 2 && ball.row <= 5 && ball.column >= 2 && ball.column <= 5
          ? { ...ball, net: `DQ${(ball.row + ball.column) % 8}`, use: 'signal' as const }
          : ball,
      ),
    })
    expect(findings(deep).map(({ severity }) => severity)).toContain('warning')
    const closed = withPackage(deep, { landDiameter: um(700), maskOpening: um(710) })
    expect(findings(closed).map(({ severity }) => severity)).toContain('error')
  })

  it('opens at the pad that it proposes, whose ring holds', () => {
    const slim = withFabrication(single, { traceToPad: { outer: um(76.2), inner: um(170) } })
    const board = withVia(slim, { ...withPads(throughVia(slim), um(420)), unconnectedInnerPads: 'kept' })
    const { value } = remedyOf(only(findings(board)), /via pad/)
    const open = withVia(board, withPads(throughVia(board), value.value))
    expect(findings(open)).toEqual([])
    const ringed = withFabrication(board, {
      annularRing: { ipcClass: 3, external: um(50), internal: um(108), source: 'test' },
    })
    expect(only(findings(ringed)).remedies.some(({ action }) => /via pad/.test(action))).toBe(false)
  })

  it('opens at the width that it proposes', () => {
    const wide = withClass(fat, 'data', neck(um(150)))
    const wider = withVia(wide, withPads(throughVia(wide), um(520)))
    const { value } = remedyOf(only(findings(wider)), /narrow the neck/)
    expect(findings(withClass(wider, 'data', neck(value.value)))).toEqual([])
  })

  it('opens when the pads of unconnected vias go, if it proposes that', () => {
    const pads = [420, 660, 660, 660, 660, 660, 660, 420].map(um)
    const board = withVia(single, { padDiameters: pads, unconnectedInnerPads: 'kept' })
    const finding = findings(board).find(({ remedies }) =>
      remedies.some(({ action }) => /remove the pads/.test(action)),
    )
    expect(finding).toBeDefined()
    const bare = withVia(board, { unconnectedInnerPads: 'removed' })
    expect(findings(bare).some(({ subject }) => subject.layer === finding?.subject.layer)).toBe(false)
  })
})

describe('a channel that a pair cannot pass together', async () => {
  const base = await exampleBoard()

  it('is found with what both traces lack, by the rule that leaves least', () => {
    const finding = only(findings(base))
    // Between lands: 0.8 mm less the mask opening and its distance on both sides leaves 0.2238 mm.
    const clear = 800 - 500 - 2 * 38.1
    expect(finding.subject.name).toBe('strobe')
    expect(finding.measured.value).toBeCloseTo(um(clear - 2 * 80 - 90), 9)
    expect(finding.subject.alike).toContain('class serial')
  })

  it('is not found where the pair passes', () => {
    const slim = withVia(base, withPads(throughVia(base), um(380)))
    expect(findings(withPackage(slim, { landDiameter: um(350), maskOpening: um(420) }))).toEqual([])
  })

  it('vanishes at the mask opening that it proposes', () => {
    // 80 um of gap: the lands leave 247.6 um for 240, the mask 223.8 um.
    const slim = withVia(base, withPads(throughVia(base), um(400)))
    const board = withClass(withClass(slim, 'strobe', { neck: { width: null, gap: um(80) } }), 'serial', {
      structure: 'single',
    })
    const { value } = remedyOf(only(findings(board)), /mask opening/)
    expect(findings(withPackage(board, { maskOpening: value.value }))).toEqual([])
  })

  it('vanishes at the width that it proposes', () => {
    const given = withClass(base, 'strobe', { neck: { width: um(70), gap: um(90) } })
    const other = withFabrication(withClass(given, 'serial', { structure: 'single' }), {
      traceWidth: { outer: um(60), inner: um(60) },
    })
    const { value, result } = remedyOf(only(findings(other)), /narrow both traces/)
    expect(result.unit).toBe('ohm')
    expect(findings(withClass(other, 'strobe', { neck: { width: value.value, gap: um(90) } }))).toEqual([])
  })

  it('is a warning where the reflection of the parted necks is above its limit, else a note', () => {
    const at = (limit: number): string[] =>
      findings(withClass(base, 'strobe', { reflectionLimit: limit })).map(({ severity }) => severity)
    expect(at(0.001)).toContain('warning')
    expect(at(0.2)).toEqual(['note'])
  })
})
