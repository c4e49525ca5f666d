import { describe, expect, it } from 'vitest'
import { channelLoading } from '../../src/impedance/channelLoading.ts'
import { breakoutVerdict } from '../../src/impedance/field/breakoutLine.ts'
import { permittivityIn } from '../../src/impedance/permittivityIn.ts'
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
const whole = { antipad: null, thickness: 15e-6, behind: 300e-6 }
const open = { ...whole, antipad: 0.6e-3 }
const bare: Surroundings = {
  viaPitch: 0.65e-3,
  halfChannel: 0.325e-3,
  barrel: 0.2e-3,
  pad: null,
  grounded: false,
  planeBelow: whole,
  planeAbove: whole,
}

function loading(change: Partial<Surroundings>): { capacitance: number; inductance: number } {
  const found = channelLoading(stripline, TEST_FREQUENCY, { ...bare, ...change })
  return found ?? { capacitance: NaN, inductance: NaN }
}

/** How far what is read off the series misses what the very line solves to, beside barrels: over it, or over `least`. */
function missOf(
  line: { readonly width: number; readonly gap?: number },
  change: Partial<Surroundings>,
  least: number,
): number {
  const section = lineSection({
    ...line,
    thickness: 15e-6,
    below: [[100e-6, 3.7]],
    above: [[110e-6, 3.7]],
    twoPlanes: true,
  })
  const surroundings = { ...bare, grounded: true, ...change }
  const read = channelLoading(section, TEST_FREQUENCY, surroundings)
  const refinement = { levels: 0, order: 2 }
  const solved = breakoutVerdict(section, surroundings, permittivityIn(TEST_FREQUENCY), refinement)
  const delay = Math.sqrt(solved.solid.effectivePermittivity) / SPEED_OF_LIGHT
  const capacitance = (solved.capacitance * solved.solid.impedance) / delay - 1
  const inductance = solved.inductance / delay / solved.solid.impedance - 1
  const miss = (found: number | undefined, exact: number): number =>
    Math.abs((found ?? NaN) - exact) / Math.max(Math.abs(exact), least)
  return Math.max(miss(read?.capacitance, capacitance), miss(read?.inductance, inductance))
}

describe('the loading of a channel', () => {
  it('is nothing where nothing stands beside the line', () => {
    const { capacitance, inductance } = loading({})
    expect(Math.abs(capacitance)).toBeLessThan(1e-12)
    expect(Math.abs(inductance)).toBeLessThan(1e-12)
  })

  it('takes capacitance and adds inductance by antipads, the other way round by barrels and pads', () => {
    const one = loading({ planeBelow: open })
    const both = loading({ planeBelow: open, planeAbove: open })
    expect(one.capacitance).toBeLessThan(-0.005)
    expect(both.capacitance).toBeLessThan(one.capacitance)
    expect(both.inductance).toBeGreaterThan(one.inductance)
    const barrels = loading({ grounded: true })
    expect(barrels.capacitance).toBeGreaterThan(0)
    expect(loading({ grounded: true, pad: 0.4e-3 }).capacitance).toBeGreaterThan(barrels.capacitance)
  })

  it('hardly changes the speed where there is one dielectric all round', () => {
    const { capacitance, inductance } = loading({ planeBelow: open })
    expect((1 + capacitance) * (1 + inductance)).toBeCloseTo(1, 2)
  })

  it('falls with the distance to the vias', () => {
    const at = [0.325e-3, 0.39e-3, 0.455e-3].map((halfChannel) =>
      Math.abs(loading({ halfChannel, planeBelow: open, grounded: true }).inductance),
    )
    expect(at[1]).toBeLessThan(Number(at[0]) / 2)
    expect(at[2]).toBeLessThan(Number(at[1]) / 2)
  })

  // Sizes half a step off the series both ways, where what is read off it errs most.
  it.each([
    [75e-6, 75e-6],
    [75e-6, 92e-6],
    [84e-6, 105e-6],
    [106e-6, 63e-6],
    [119e-6, 146e-6],
  ])(
    'is within 5 %% of that of the very pair, or of 0.01, for traces of %s m at a gap of %s m',
    (width, gap) => {
      for (const pad of [null, 0.3e-3]) {
        expect(missOf({ width, gap }, { halfChannel: 0.45e-3, planeBelow: open, pad }, 0.01)).toBeLessThan(
          0.05,
        )
      }
    },
  )

  it.each([66.7e-6, 75e-6, 84.1e-6, 94.4e-6, 118.9e-6])(
    'is within 5 %% of that of the very trace, or of 0.05, for a single trace of %s m',
    (width) => {
      expect(missOf({ width }, { planeBelow: open, planeAbove: open }, 0.05)).toBeLessThan(0.05)
      expect(missOf({ width }, { planeBelow: open, pad: 0.4e-3 }, 0.05)).toBeLessThan(0.05)
      expect(missOf({ width }, {}, 0.05)).toBeLessThan(0.05)
    },
  )

  it('is solved once for pairs of nearly the same size', () => {
    const pair = (width: number, gap: number): number => {
      const section = lineSection({
        width,
        gap,
        thickness: 15e-6,
        below: [[100e-6, 3.7]],
        above: [[110e-6, 3.7]],
        twoPlanes: true,
      })
      const found = channelLoading(section, TEST_FREQUENCY, {
        ...bare,
        halfChannel: 0.45e-3,
        grounded: true,
        planeBelow: open,
      })
      return found?.inductance ?? NaN
    }
    // The law that is taken: the square of the distance of their middles.
    expect(pair(80e-6, 85e-6) / pair(80e-6, 80e-6)).toBeCloseTo((165 / 160) ** 2, 9)
  })

  it('knows pads without a hole, as those of lands', () => {
    expect(loading({ grounded: true, barrel: null, pad: 0.4e-3 }).capacitance).toBeGreaterThan(0)
  })

  it('is unknown where a pad touches the trace', () => {
    expect(channelLoading(stripline, TEST_FREQUENCY, { ...bare, grounded: true, pad: 0.6e-3 })).toBeNull()
  })
})
