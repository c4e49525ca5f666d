import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { aspectRatioTooHigh } from '../../../src/findings/rules/aspectRatioTooHigh.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { um } from '../../signal/fixtures.ts'
import { contextOf, only, remedyOf, withDrill, withFabrication, withVia } from '../fixtures.ts'

const base = await exampleBoard()
const findings = (board: Board): ReturnType<typeof aspectRatioTooHigh> => aspectRatioTooHigh(contextOf(board))

describe('a hole', () => {
  it('is found where it is deeper for its drill than is plated', () => {
    // Copper and dielectric of the example add up to 1.05 mm.
    const strict = withFabrication(base, { aspectRatio: { drilled: 5, microvia: 0.8 } })
    const finding = only(findings(strict))
    expect(finding.measured.value).toBeCloseTo(1050 / 200, 9)
    expect(finding.limit.value).toBe(5)
    const { value } = remedyOf(finding, /^drill/)
    expect(findings(withDrill(strict, value.value))).toEqual([])
  })

  it('is not found at the limit', () => {
    expect(findings(withFabrication(base, { aspectRatio: { drilled: 5.2501, microvia: 0.8 } }))).toEqual([])
  })

  it('is as deep as what is drilled: plating comes after', () => {
    const layers = base.stackup.layers.map((part) =>
      part.kind === 'copper' && part.position !== 'inner' ? { ...part, plating: um(25) } : part,
    )
    const copper = layers.filter((part) => part.kind === 'copper')
    const plated = { ...base, stackup: { ...base.stackup, layers, copper } }
    const strict = withFabrication(plated, { aspectRatio: { drilled: 4.9, microvia: 0.8 } })
    expect(only(findings(strict)).measured.value).toBeCloseTo((1050 - 50) / 200, 9)
  })

  it('asks for a larger pad with its larger drill where the ring would not hold', () => {
    const strict = withFabrication(base, {
      aspectRatio: { drilled: 4, microvia: 0.8 },
      annularRing: { ipcClass: 3, external: um(80), internal: um(100), source: 'test' },
    })
    const finding = only(findings(strict))
    // 1.05 mm / 4 = 262.5 um, up to the next micron, and 100 um of ring on both sides.
    expect(remedyOf(finding, /^drill/).value.value).toBeCloseTo(um(263), 9)
    expect(remedyOf(finding, /pads/).value.value).toBeCloseTo(um(463), 9)
  })

  it('of a microvia ends on its target land', () => {
    const micro = withVia(base, { kind: 'microvia', firstLayer: 1, lastLayer: 2, drilledDiameter: um(100) })
    // 40 um of copper and 75 um of prepreg over 100 um.
    expect(only(findings(micro)).measured.value).toBeCloseTo(1.15, 9)
    const stacked = withVia(base, {
      kind: 'microvia',
      firstLayer: 1,
      lastLayer: 3,
      drilledDiameter: um(100),
      arrangement: 'stacked',
    })
    expect(only(findings(stacked)).measured.value).toBeCloseTo(1.15, 9)
    const through = withVia(base, { kind: 'microvia', firstLayer: 1, lastLayer: 3, drilledDiameter: um(100) })
    expect(only(findings(through)).measured.value).toBeCloseTo((40 + 75 + 15 + 100) / 100, 9)
  })
})
