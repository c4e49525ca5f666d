import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { maskTooNear } from '../../../src/findings/rules/maskTooNear.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { um } from '../../signal/fixtures.ts'
import { contextOf, only, remedyOf, withFabrication, withPackage } from '../fixtures.ts'

const base = await exampleBoard()
const findings = (board: Board): ReturnType<typeof maskTooNear> => maskTooNear(contextOf(board))

describe('a mask opening', () => {
  it('is not found on the example', () => {
    expect(findings(base)).toEqual([])
  })

  it('is found where it keeps a trace out that the lands let pass, and vanishes at the opening it proposes', () => {
    const wide = withPackage(base, { maskOpening: um(650) })
    const finding = only(findings(wide))
    expect(finding.measured.value).toBeCloseTo(um(800 - 650 - 2 * 38.1 - 80), 9)
    expect(finding.measured.what).toMatch(/mask opening to trace/)
    const { value } = remedyOf(finding, /mask opening/)
    expect(findings(withPackage(wide, { maskOpening: value.value }))).toEqual([])
  })

  it('is never proposed smaller than the land', () => {
    const wide = withFabrication(withPackage(base, { maskOpening: um(520), landDiameter: um(510) }), {
      maskOpeningToTrace: um(110),
      traceToPad: { outer: um(76), inner: um(76) },
    })
    const finding = findings(wide).find(({ subject }) => subject.kind === 'class')
    expect(finding?.remedies.some(({ action }) => /mask opening/.test(action))).toBe(false)
  })

  it('is found where too little mask is left between two, a warning that vanishes at the opening it proposes', () => {
    const narrow = withFabrication(base, { maskWeb: um(310) })
    const finding = only(findings(narrow))
    expect(finding.severity).toBe('warning')
    expect(finding.measured.value).toBeCloseTo(um(300), 9)
    expect(findings(withPackage(narrow, { maskOpening: remedyOf(finding, /opening/).value.value }))).toEqual(
      [],
    )
  })
})
