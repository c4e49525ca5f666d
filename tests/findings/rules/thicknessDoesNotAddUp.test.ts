import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { withThickness } from '../../../src/dielectric/withThickness.ts'
import { thicknessDoesNotAddUp } from '../../../src/findings/rules/thicknessDoesNotAddUp.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { um } from '../../signal/fixtures.ts'
import { contextOf, only, remedyOf } from '../fixtures.ts'

const base = await exampleBoard()
const findings = (board: Board): ReturnType<typeof thicknessDoesNotAddUp> =>
  thicknessDoesNotAddUp(contextOf(board, { routes: [] }))
const stated = (thickness: number | null): Board => ({
  ...base,
  stackup: { ...base.stackup, statedThickness: thickness },
})

describe('a stackup', () => {
  // The layers of the example add up to 1.05 mm, its tolerance is 10 %.
  it('is a warning where its layers sum to more, or less, than its tolerance allows', () => {
    expect(only(findings(stated(um(950)))).limit).toMatchObject({ what: 'at most', value: um(950) * 1.1 })
    expect(only(findings(stated(um(1170)))).limit).toMatchObject({ what: 'at least', value: um(1170) * 0.9 })
  })

  it('is not found within it, nor where nothing is stated', () => {
    expect(findings(base)).toEqual([])
    expect(findings(stated(um(955)))).toEqual([])
    expect(findings(stated(null))).toEqual([])
  })

  it('adds up at the thickness that it proposes for its thickest dielectric', () => {
    const off = stated(um(950))
    const { value, action } = remedyOf(only(findings(off)), /bring core 2 to/)
    expect(value.value).toBeCloseTo(um(100), 12)
    expect(action).toBe('bring core 2 to')
    expect(findings({ ...off, stackup: withThickness(off.stackup, 'core 2', value.value) })).toEqual([])
  })

  it('proposes none that cannot be pressed', () => {
    expect(only(findings(stated(um(800)))).remedies).toEqual([])
  })
})
