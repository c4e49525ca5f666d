import { describe, expect, it } from 'vitest'
import { estimateLine } from '../../src/impedance/estimateLine.ts'
import { solveWidth, widthNear } from '../../src/impedance/solveWidth.ts'
import { deriveSection } from '../../src/section/deriveSection.ts'
import { copper, dielectric, plane, stackup } from '../helpers/stackup.ts'

const FREQUENCY = 1e9
const boards = stackup(copper('L1', { sidewallSlope: 0.3 }), dielectric('d', 100, 4), plane('L2'))
const ask = { layer: 1, width: 0, gap: null, coplanarGap: null, broadsideLayer: null }

describe('solveWidth', () => {
  it.each([35, 50, 75, 90])('finds the width at which the line has %f ohm', (target) => {
    const solved = solveWidth(boards, ask, target, FREQUENCY)
    // Half of the least error band.
    expect(Math.abs(Number(solved?.impedance.impedance) / target - 1)).toBeLessThan(5e-4)
  })

  it.each([80, 100])('finds the width of a pair of %f ohm, differential', (target) => {
    const request = { ...ask, gap: 150e-6 }
    const solved = solveWidth(boards, request, target, FREQUENCY)
    const again = estimateLine(deriveSection(boards, { ...request, width: solved?.width ?? NaN }), FREQUENCY)
    expect(Math.abs(again.impedance / target - 1)).toBeLessThan(5e-4)
  })

  it('finds the width of the textbook stripline: 50 ohm at 2.66 mm between planes 3.2 mm apart', () => {
    // D. M. Pozar, Microwave Engineering, example of stripline design, εr 2.20, zero thickness (from memory).
    const striplines = stackup(
      plane('L1'),
      dielectric('a', 1600, 2.2),
      copper('L2', { thickness: 1e-6 }),
      dielectric('b', 1600, 2.2),
      plane('L3'),
    )
    const solved = solveWidth(striplines, { ...ask, layer: 2 }, 50, FREQUENCY)
    expect(solved?.width).toBeGreaterThan(2.63e-3)
    expect(solved?.width).toBeLessThan(2.69e-3)
  })

  it('finds nearly the same width by the closed form scaled nearby', () => {
    const near = widthNear(boards, { ...ask, width: 150e-6 }, 50, FREQUENCY)
    const exact = solveWidth(boards, ask, 50, FREQUENCY)?.width
    expect(Math.abs(Number(near) / Number(exact) - 1)).toBeLessThan(0.01)
    expect(widthNear(boards, { ...ask, width: 150e-6 }, 300, FREQUENCY)).toBeNull()
  })

  it('says null where no width reaches the target', () => {
    expect(solveWidth(boards, ask, 300, FREQUENCY)).toBeNull()
    expect(solveWidth(boards, ask, 2, FREQUENCY)).toBeNull()
  })

  it.each([0, -50, NaN])('refuses the target %f ohm', (target) => {
    expect(() => solveWidth(boards, ask, target, FREQUENCY)).toThrow('target impedance must be above 0')
  })
})
