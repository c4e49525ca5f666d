import { describe, expect, it } from 'vitest'
import { estimateLine, uncoupledPair } from '../../src/impedance/estimateLine.ts'
import { loadedLine } from '../../src/impedance/loadedLine.ts'
import type { Surroundings } from '../../src/section/surroundings.ts'
import { SPEED_OF_LIGHT } from '../../src/units/constants.ts'
import { lineSection, TEST_FREQUENCY } from '../helpers/lineSection.ts'

const stripline = lineSection({
  width: 80e-6,
  thickness: 15e-6,
  below: [[100e-6, 3.7]],
  above: [[110e-6, 3.7]],
  twoPlanes: true,
})
const line = estimateLine(stripline, TEST_FREQUENCY)
const whole = { antipad: null, thickness: 15e-6, behind: 300e-6 }
const bare: Surroundings = {
  viaPitch: 0.65e-3,
  halfChannel: 0.325e-3,
  barrel: 0.2e-3,
  pad: null,
  grounded: false,
  planeBelow: whole,
  planeAbove: whole,
}

function ratio(change: Partial<Surroundings>): number {
  return loadedLine(line, { ...bare, ...change })?.ratio ?? NaN
}

describe('loadedLine', () => {
  it('is the line itself where nothing stands beside it', () => {
    const loaded = loadedLine(line, bare)
    expect(loaded?.ratio).toBe(1)
    expect(loaded?.impedance).toBe(line.impedance)
    expect(loaded?.delay).toBeCloseTo(line.delay, 20)
  })

  it('rises with the antipads and falls with barrels and pads, in one dielectric at the same speed', () => {
    const open = { ...whole, antipad: 0.6e-3 }
    expect(ratio({ planeBelow: open })).toBeGreaterThan(1.005)
    expect(ratio({ planeBelow: open, planeAbove: open })).toBeGreaterThan(ratio({ planeBelow: open }))
    expect(ratio({ grounded: true })).toBeLessThan(1)
    expect(ratio({ grounded: true, pad: 0.4e-3 })).toBeLessThan(ratio({ grounded: true }))
    const loaded = loadedLine(line, { ...bare, planeBelow: open })
    // One dielectric all round: openings change the impedance and hardly the speed of light in it.
    expect(loaded?.effectivePermittivity).toBeCloseTo(3.7, 1)
    expect(Number(loaded?.delay) * SPEED_OF_LIGHT).toBeCloseTo(
      Math.sqrt(Number(loaded?.effectivePermittivity)),
      9,
    )
  })

  it('grants the band of the line and that of the ratio', () => {
    expect(loadedLine(line, bare)?.band).toBeCloseTo(line.chosen.claimedError + 0.002, 12)
  })

  it('takes two traces apart as twice the single one', () => {
    const surroundings = { ...bare, grounded: true }
    const apart = loadedLine(uncoupledPair(line), surroundings)
    expect(apart?.impedance).toBeCloseTo(2 * Number(loadedLine(line, surroundings)?.impedance), 9)
  })

  it('is null where a pad touches the trace', () => {
    expect(loadedLine(line, { ...bare, grounded: true, pad: 0.6e-3 })).toBeNull()
  })
})
