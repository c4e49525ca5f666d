import { beforeAll, describe, expect, it } from 'vitest'
import type { Board } from '../../src/board/board.ts'
import { chooseThickness, type ThicknessQuestion } from '../../src/dielectric/chooseThickness.ts'
import { withThickness } from '../../src/dielectric/withThickness.ts'
import { evaluateLine } from '../../src/line.ts'
import { exampleBoard } from '../board/exampleBoard.ts'
import { copper, dielectric, plane, stackup } from '../helpers/stackup.ts'

let board: Board

beforeAll(async () => {
  board = await exampleBoard()
})

function question(change: Partial<ThicknessQuestion['request']> = {}, target = 50): ThicknessQuestion {
  const request = { layer: 1, width: 90e-6, gap: null, coplanarGap: null, broadsideLayer: null, ...change }
  return { request, target, tolerance: 0.1, stretch: 'neck', netClass: null }
}

describe('chooseThickness', () => {
  it.each([
    ['an outer trace', {}, 50],
    ['an inner trace', { layer: 3, width: 75e-6 }, 55],
    ['an outer pair', { gap: 100e-6 }, 90],
  ])(
    'finds the thickness that meets the target for %s, to half of the least error band',
    (_, change, target) => {
      const asked = question(change, target)
      const choice = chooseThickness(board, asked)
      if (choice.thickness === null) throw new Error(choice.reason ?? '')
      const changed = { ...board, stackup: withThickness(board.stackup, choice.dielectric, choice.thickness) }
      expect(evaluateLine(changed, asked.request).impedance).toBe(choice.reached?.impedance)
      expect(Math.abs(Number(choice.reached?.impedance) / target - 1)).toBeLessThan(5e-4)
    },
  )

  it('puts the edges of the window on target ± tolerance', () => {
    const asked = question()
    const { window, dielectric: name } = chooseThickness(board, asked)
    if (window === null) throw new Error('a window is expected')
    const at = (thickness: number): number =>
      evaluateLine({ ...board, stackup: withThickness(board.stackup, name, thickness) }, asked.request)
        .impedance
    // The edges come from the scaled closed form: within the band of the method that meets the target.
    expect(Math.abs(at(window.max) / 55 - 1)).toBeLessThan(0.001)
    // The thinner edge may be the thinnest that the fabricator makes.
    expect(at(window.min)).toBeGreaterThanOrEqual(45 * 0.999)
    expect(window.min).toBeGreaterThanOrEqual(board.fabrication.minDielectric)
  })

  it('varies the dielectric towards the nearer plane', () => {
    // Core 1 is 100 um to L2, prepreg 2 is 150 um to L4.
    expect(chooseThickness(board, question({ layer: 3, width: 75e-6 }, 45)).dielectric).toBe('core 1')
  })

  it('agrees with the published height of a 4 mil microstrip: 50 ohm over about 2.4 mil', () => {
    // 4 mil trace, 1.4 mil copper, permittivity 3.9, no mask; closed-form guidance figure of planning tables,
    // common practice, no source: 2.4 mil, half the last digit ± the formula's band.
    const bare = stackup(copper('L1', { thickness: 1.4 * 25.4e-6 }), dielectric('d', 75, 3.9), plane('L2'))
    const choice = chooseThickness({ ...board, stackup: bare }, question({ width: 4 * 25.4e-6 }))
    expect(Math.abs((choice.thickness ?? NaN) / 25.4e-6 - 2.4)).toBeLessThan(0.15)
  })

  it('rises with thickness all along its curve', () => {
    const { curve } = chooseThickness(board, question())
    const rises = curve.slice(1).map((point, index) => point.impedance - (curve[index]?.impedance ?? NaN))
    expect(Math.min(...rises)).toBeGreaterThan(0)
  })

  it.each([
    ['an inner trace far nearer to one plane', { layer: 3, width: 75e-6 }, 50],
    ['an inner pair', { layer: 3, width: 75e-6, gap: 90e-6 }, 90],
    ['an outer trace', {}, 50],
    ['an outer pair', { gap: 100e-6 }, 90],
  ])('keeps its band beside the field solution all along the curve, for %s', (_, change, target) => {
    const asked = question(change, target)
    const { curve, dielectric: name } = chooseThickness(board, asked)
    for (const { thickness, impedance, band } of curve.filter((__, index) => index % 3 === 1)) {
      const changed = { ...board, stackup: withThickness(board.stackup, name, thickness) }
      const exact = evaluateLine(changed, asked.request).impedance
      expect(Math.abs(impedance / exact - 1)).toBeLessThanOrEqual(band)
    }
  })

  it('has a window where no thickness meets the target, but some keep its tolerance', () => {
    const asked = question({ width: 80e-6 }, 47)
    const { thickness, window, dielectric: name, curve } = chooseThickness(board, asked)
    expect(thickness).toBeNull()
    if (window === null) throw new Error('a window is expected')
    const edge = { ...board, stackup: withThickness(board.stackup, name, window.max) }
    expect(Math.abs(evaluateLine(edge, asked.request).impedance / (1.1 * 47) - 1)).toBeLessThan(0.005)
    expect(window.min).toBe(curve[0]?.thickness)
  })

  it('says why no thickness reaches the target', () => {
    const wide = chooseThickness(board, question({ width: 2e-3 }))
    expect(wide).toMatchObject({ thickness: null, reached: null, window: null })
    expect(wide.reason).toContain('too wide')
    expect(chooseThickness(board, question({ width: 80e-6 }, 15)).reason).toContain('too narrow')
  })

  it('still has a range where the fabricator makes nothing thinner than 0.8 mm', () => {
    const coarse = { ...board, fabrication: { ...board.fabrication, minDielectric: 0.8e-3 } }
    const { curve } = chooseThickness(coarse, question())
    expect(curve[0]?.thickness).toBeCloseTo(0.8e-3, 9)
    expect(curve.at(-1)?.thickness).toBeCloseTo(3.2e-3, 9)
  })

  it('refuses what the stackup cannot carry', () => {
    expect(() => chooseThickness(board, question({ layer: 2 }))).toThrow('layer L2 is a plane')
  })
})

describe('withThickness', () => {
  it('changes one dielectric and the sum, nothing else', () => {
    const changed = withThickness(board.stackup, 'core 1', 80e-6)
    expect(changed.computedThickness).toBeCloseTo(board.stackup.computedThickness - 20e-6, 12)
    const different = changed.layers.filter((layer, index) => layer !== board.stackup.layers[index])
    expect(different.map((layer) => layer.name)).toEqual(['core 1'])
  })

  it.each([
    ['a dielectric that is not there', 'core 9', 1e-4, 'no dielectric named core 9'],
    ['a thickness of zero', 'core 1', 0, 'must be above 0'],
  ])('refuses %s', (_, name, thickness, message) => {
    expect(() => withThickness(board.stackup, name, thickness)).toThrow(message)
  })
})
