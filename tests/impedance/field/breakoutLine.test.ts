import { describe, expect, it } from 'vitest'
import {
  type BreakoutLine,
  BREAKOUT_REFINEMENT,
  breakoutLine,
  type LoadedMode,
} from '../../../src/impedance/field/breakoutLine.ts'
import { fieldModes } from '../../../src/impedance/field/fieldLine.ts'
import type { CrossSection, DielectricSheet } from '../../../src/section/crossSection.ts'
import type { Surroundings } from '../../../src/section/surroundings.ts'
import { SPEED_OF_LIGHT } from '../../../src/units/constants.ts'
import { lineSection } from '../../helpers/lineSection.ts'

const relative = ({ permittivity }: Pick<DielectricSheet, 'permittivity'>): number => permittivity.relative
const um = 1e-6
const mask = { overLaminate: 20 * um, overTrace: 13 * um, permittivity: 3.8 }
const surface = { width: 100 * um, topWidth: 90 * um, thickness: 30 * um, below: [[70 * um, 3.7] as const] }
const buried = {
  width: 90 * um,
  topWidth: 80 * um,
  thickness: 15 * um,
  below: [[80 * um, 3.7] as const],
  above: [[110 * um, 3.4] as const],
  twoPlanes: true,
}
const SECTIONS: Readonly<Record<string, CrossSection>> = {
  surface: lineSection(surface),
  'coated pair': lineSection({ ...surface, mask, gap: 100 * um }),
  stripline: lineSection(buried),
  'stripline pair': lineSection({ ...buried, gap: 100 * um }),
}
const sectionOf = (name: string): CrossSection => SECTIONS[name] ?? lineSection(surface)

function around(
  section: CrossSection,
  antipad: number | null,
  change: Partial<Surroundings> = {},
): Surroundings {
  const plane = { antipad: antipad === null ? null : antipad * um, thickness: 17 * um, behind: 100 * um }
  return {
    viaPitch: 800 * um,
    halfChannel: 400 * um,
    barrel: 200 * um,
    pad: null,
    grounded: false,
    planeBelow: plane,
    planeAbove: section.planeAbove === null ? null : plane,
    ...change,
  }
}

/** The line, or the mode that a pair's signal travels in, and the other. */
function modesOf({ modes }: BreakoutLine): LoadedMode[] {
  return modes.kind === 'single' ? [modes.line] : [modes.odd, modes.even]
}
const ratios = (line: BreakoutLine): number[] => modesOf(line).map(({ ratio }) => ratio)

describe.each(Object.keys(SECTIONS))('breakoutLine of a %s', (name) => {
  const section = sectionOf(name)
  const solve = (surroundings: Surroundings, refinement = BREAKOUT_REFINEMENT): BreakoutLine =>
    breakoutLine(section, surroundings, relative, refinement)

  it('without openings and grounded vias is the line over unbroken planes, exactly', () => {
    const line = solve(around(section, null))
    const { modes } = fieldModes(section, relative, BREAKOUT_REFINEMENT)
    expect(line.cuts).toBe(0)
    const solid = modes.kind === 'single' ? [modes.line] : [modes.odd, modes.even]
    modesOf(line).forEach((mode, index) => {
      expect(mode.impedance / Number(solid[index]?.impedance)).toBeCloseTo(1, 12)
      expect(mode.solid).toEqual(solid[index])
    })
  })

  it('rises with the antipads, from one for small ones far from the trace', () => {
    const found = [250, 400, 550, 700].map((antipad) => ratios(solve(around(section, antipad))))
    found[0]?.forEach((_, mode) => {
      const rise = found.map((each) => Number(each[mode]))
      // An opening 275 µm away from the middle: nothing but the difference of two meshes is left.
      expect(rise[0]).toBeCloseTo(1, 2)
      expect(rise.slice(1).every((ratio, index) => ratio > Number(rise[index]))).toBe(true)
    })
  })

  it('is loaded by grounded barrels, and more by their pads', () => {
    const bare = ratios(solve(around(section, 550)))
    const barrels = ratios(solve(around(section, 550, { grounded: true })))
    const pads = ratios(solve(around(section, 550, { grounded: true, pad: 400 * um })))
    bare.forEach((ratio, mode) => {
      expect(barrels[mode]).toBeLessThan(ratio)
      expect(pads[mode]).toBeLessThan(Number(barrels[mode]))
    })
  })

  it('tends to the unloaded line as the vias stand further apart, in proportion', () => {
    const excess = [800, 3200].map(
      (pitch) => Number(ratios(solve(around(section, 600, { viaPitch: pitch * um })))[0]) - 1,
    )
    expect(Number(excess[0]) / Number(excess[1])).toBeCloseTo(4, 0)
  })

  it('holds together: Z² = L / C, permittivity = L C c², and no mode faster than light', () => {
    for (const mode of modesOf(solve(around(section, 600)))) {
      expect(mode.impedance ** 2 / (mode.inductance / mode.capacitance)).toBeCloseTo(1, 12)
      expect(
        mode.effectivePermittivity / (mode.inductance * mode.capacitance * SPEED_OF_LIGHT ** 2),
      ).toBeCloseTo(1, 12)
      expect(mode.effectivePermittivity).toBeGreaterThan(1)
    }
  })

  it('is within 1e-3 of a solution refined further, with at most 350 unknowns in a cut', () => {
    const surroundings = around(section, 600, { grounded: true })
    const coarse = solve(surroundings)
    const fine = ratios(solve(surroundings, { levels: 2, order: 3 }))
    expect(coarse.unknowns).toBeLessThanOrEqual(350)
    ratios(coarse).forEach((ratio, mode) => {
      expect(Math.abs(ratio / Number(fine[mode]) - 1)).toBeLessThan(1e-3)
    })
  })
})

describe('breakoutLine', () => {
  const section = sectionOf('stripline')
  const line = (surroundings: Surroundings): LoadedMode[] =>
    modesOf(breakoutLine(section, surroundings, relative))

  it('is the same at every scale', () => {
    const tenfold = lineSection({
      ...buried,
      width: 900 * um,
      topWidth: 800 * um,
      thickness: 150 * um,
      below: [[800 * um, 3.7]],
      above: [[1100 * um, 3.4]],
    })
    const plane = { antipad: 6000 * um, thickness: 170 * um, behind: 1000 * um }
    const [large] = modesOf(
      breakoutLine(
        tenfold,
        {
          viaPitch: 8000 * um,
          halfChannel: 4000 * um,
          barrel: 2000 * um,
          pad: null,
          grounded: true,
          planeBelow: plane,
          planeAbove: plane,
        },
        relative,
      ),
    )
    const [small] = line(around(section, 600, { grounded: true }))
    expect(Number(large?.ratio) / Number(small?.ratio)).toBeCloseTo(1, 9)
  })

  it('hardly depends on where the plane is set that stands for nothing behind', () => {
    const behind = (distance: number | null): Surroundings => {
      const plane = { antipad: 600 * um, thickness: 17 * um, behind: distance }
      return around(section, 600, { planeBelow: plane, planeAbove: plane })
    }
    const [nothing] = line(behind(null))
    const [far] = line(behind(8000 * um))
    expect(Number(far?.ratio) / Number(nothing?.ratio)).toBeCloseTo(1, 3)
  })

  it('with openings that leave no web, along and across, still has an answer', () => {
    const [mode] = line(around(section, 900))
    expect(mode?.ratio).toBeGreaterThan(1.05)
    expect(mode?.ratio).toBeLessThan(2)
  })

  it('refuses surroundings that are no picture, with the value and its unit', () => {
    const refused = (change: Partial<Surroundings>) => () => line(around(section, 600, change))
    const plane = { antipad: 600 * um, thickness: 17 * um, behind: 100 * um }
    expect(refused({ viaPitch: 0 })).toThrow('via pitch must be above 0 and finite, got 0 m')
    expect(refused({ halfChannel: NaN })).toThrow('got NaN m')
    expect(refused({ barrel: -1 })).toThrow('barrel diameter must be above 0')
    expect(refused({ pad: Infinity })).toThrow('pad diameter must be above 0 and finite')
    expect(refused({ planeAbove: null })).toThrow('must both have a plane above, or neither')
    expect(refused({ planeBelow: { ...plane, thickness: 0 } })).toThrow('thickness of the plane below')
    expect(refused({ planeBelow: { ...plane, behind: 0 } })).toThrow(
      'distance to the plane behind the one below',
    )
    expect(refused({ planeBelow: { ...plane, antipad: 150 * um } })).toThrow('leaves no room for a barrel')
    expect(refused({ grounded: true, pad: 720 * um })).toThrow('reaches copper')
    expect(refused({ grounded: true, viaPitch: 150 * um })).toThrow('run into each other')
    expect(() =>
      breakoutLine({ ...section, coplanarGap: 100 * um }, around(section, 600, { grounded: true }), relative),
    ).toThrow('leaves no room for grounded vias')
  })
})
