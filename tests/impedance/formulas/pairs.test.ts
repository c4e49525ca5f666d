import { describe, expect, it } from 'vitest'
import type { Formula, Estimate } from '../../../src/impedance/estimate.ts'
import { fieldModes } from '../../../src/impedance/field/fieldLine.ts'
import { BROADSIDE_PAIR } from '../../../src/impedance/formulas/broadsidePair.ts'
import { MICROSTRIP_PAIR } from '../../../src/impedance/formulas/microstripPair.ts'
import { regimeOf } from '../../../src/impedance/formulas/regimes.ts'
import { STRIPLINE } from '../../../src/impedance/formulas/stripline.ts'
import { STRIPLINE_PAIR } from '../../../src/impedance/formulas/striplinePair.ts'
import { bracketRoot } from '../../../src/numerics/bracketRoot.ts'
import type { CrossSection } from '../../../src/section/crossSection.ts'
import { missedRows, type Comparison } from '../../helpers/compareTable.ts'
import { lineSection, TEST_FREQUENCY, type SectionShape } from '../../helpers/lineSection.ts'
import { PAIR_STRUCTURES, randomPairs } from '../../helpers/randomPairs.ts'
import { readReferenceTables, rowsOf, type ReferenceRow } from '../../helpers/referenceTable.ts'

const PAIRS: readonly Formula[] = [...MICROSTRIP_PAIR, ...STRIPLINE_PAIR, ...BROADSIDE_PAIR]
const MIL = 25.4e-6
const MICROMETRE = 1e-6

/** Every estimate for a section, the smallest claim first. */
function estimates(section: CrossSection): Estimate[] {
  return PAIRS.filter((formula) => formula.applies(section))
    .map((formula) => formula.estimate(section, TEST_FREQUENCY))
    .sort((first, second) => first.claimedError - second.claimedError)
}

function oddOf(estimate: Estimate | undefined): number {
  return estimate?.modes.kind === 'pair' ? estimate.modes.odd.impedance : NaN
}

/** Differential impedance of the form chosen for a shape. */
function differential(shape: SectionShape): number {
  return 2 * oddOf(estimates(lineSection(shape))[0])
}

/** `trust` is the uncertainty of the value compared with, and counts besides the claim. */
function claims(label: string, section: CrossSection, odd: number, trust: number): Comparison[] {
  return estimates(section).map((estimate) => ({
    label: `${estimate.method.id}, ${label}`,
    actual: oddOf(estimate),
    expected: odd,
    tolerance: (estimate.claimedError + trust) * odd,
  }))
}

const tables = readReferenceTables('lineReferenceValues.json')
const of = (row: ReferenceRow, name: string): number => row[name] ?? NaN
const SECTIONS: Readonly<Record<string, (row: ReferenceRow) => CrossSection>> = {
  'edge-coupled-surface': (row) => lineSection(surface(row)),
  'edge-coupled-coated': (row) => {
    const coat = of(row, 'coat')
    const mask = { overLaminate: coat, overTrace: coat, permittivity: of(row, 'permittivityCoat') }
    return lineSection({ ...surface(row), mask })
  },
  'edge-coupled-stripline': (row) => lineSection({ ...planes(row, 'below', 'above'), gap: of(row, 'gap') }),
  'broadside-stripline': (row) => {
    const section = lineSection(planes(row, 'toPlane', 'toPlane'))
    const [below] = section.below
    if (below === undefined) throw new RangeError('no sheet')
    const sheets = [{ ...below, thickness: of(row, 'between') }]
    return { ...section, arrangement: 'broadside pair', broadside: { layer: 2, sheets } }
  },
}

function surface(row: ReferenceRow): SectionShape {
  const below = [[of(row, 'height'), of(row, 'permittivity')]] as const
  return { width: of(row, 'width'), thickness: of(row, 'thickness'), gap: of(row, 'gap'), below }
}

function planes(row: ReferenceRow, below: string, above: string): SectionShape {
  const er = of(row, 'permittivity')
  return {
    width: of(row, 'width'),
    thickness: of(row, 'thickness'),
    below: [[of(row, below), er]],
    above: [[of(row, above), er]],
    twoPlanes: true,
  }
}

describe('the closed forms of pairs', () => {
  it('have ids, titles and sources of their own', () => {
    expect(new Set(PAIRS.map(({ id }) => id)).size).toBe(PAIRS.length)
    expect(PAIRS.filter(({ title, source }) => title.length < 10 || source.length < 8)).toEqual([])
    expect(PAIRS.filter(({ ownFit, source }) => ownFit !== source.includes('own'))).toEqual([])
  })

  // Independent numerical solution (boundary elements), ±0.05 %, layered ±0.1 %.
  it.each(Object.keys(SECTIONS))('stay within their claims in the reference table of %s', (name) => {
    const rows = rowsOf(tables, name).flatMap((row) => {
      const section = SECTIONS[name]?.(row)
      return section === undefined ? [] : claims(JSON.stringify(row), section, of(row, 'oddImpedance'), 0.001)
    })
    expect(missedRows(rows)).toBe('')
  })

  it('choose for a plain pair edge to edge of the reference a form that claims 6.5 % or better, else 12 %', () => {
    const claimed = Object.entries(SECTIONS).flatMap(([name, sectionOf]) =>
      rowsOf(tables, name).map((row) => {
        const section = sectionOf(row)
        const plain = regimeOf(section, TEST_FREQUENCY) === 'plain' && section.arrangement === 'edge pair'
        return { row, most: plain ? 0.065 : 0.12, claim: estimates(section)[0]?.claimedError ?? NaN }
      }),
    )
    expect(claimed.length).toBe(11)
    expect(claimed.filter(({ most }) => most < 0.1).length).toBeGreaterThan(4)
    expect(claimed.filter(({ claim, most }) => !(claim > 0 && claim <= most))).toEqual([])
  })

  // An independent route: the project's own field solution of the very section, trapezoid, sheets and all.
  it.each(PAIR_STRUCTURES)(
    'stay within their claims against the field solution: %s',
    (structure) => {
      const sections = randomPairs(structure, structure.includes('coplanar') ? 3 : 6, 2027)
      const rows = sections.flatMap((section, index) => {
        const { modes } = fieldModes(section, (sheet) => sheet.permittivity.relative, { levels: 2, order: 4 })
        const odd = modes.kind === 'pair' ? modes.odd.impedance : NaN
        return claims(`${structure} ${index}`, section, odd, 0.001)
      })
      expect(rows.length).toBeGreaterThanOrEqual(sections.length)
      expect(missedRows(rows)).toBe('')
    },
    120_000,
  )

  it('answer every structure with finite numbers, however far outside their limits', () => {
    const extremes = PAIR_STRUCTURES.flatMap((structure) => randomPairs(structure, 3, 5)).flatMap((section) =>
      [0.05, 20].map((factor): CrossSection => {
        const { trace, gap } = section
        const scaled = { ...trace, width: factor * trace.width, topWidth: factor * trace.topWidth }
        return { ...section, trace: scaled, gap: gap === null ? null : gap / factor }
      }),
    )
    const answers = extremes.map(estimates)
    expect(answers.filter((all) => all.length === 0)).toEqual([])
    const odd = answers.flat().filter(({ modes, claimedError }) => {
      if (modes.kind !== 'pair') return true
      const numbers = [modes.even, modes.odd].flatMap((mode) => [mode.impedance, mode.effectivePermittivity])
      return !numbers.every((value) => value > 0 && Number.isFinite(value)) || !(claimedError > 0)
    })
    expect(odd.map(({ method, modes }) => [method.id, modes])).toEqual([])
  })

  it('widen the band and name the limit outside their range', () => {
    const shape = (gap: number): SectionShape => ({ width: 1e-4, thickness: 3e-5, gap, below: [[1e-4, 4]] })
    const [inside, outside] = [1e-4, 2e-5].map((gap) => estimates(lineSection(shape(gap)))[0])
    expect(inside?.violations).toEqual([])
    expect(outside?.violations.map(({ quantity }) => quantity)).toContain('thickness/gap')
    expect(outside?.claimedError).toBeGreaterThan(2 * (inside?.claimedError ?? NaN))
  })

  it('say of ground beside a broadside pair that it is left out, and widen the band for it', () => {
    const [section] = randomPairs('broadside', 1, 8)
    if (section === undefined) throw new RangeError('no section')
    const [without] = estimates(section)
    const [beside] = estimates({ ...section, coplanarGap: 1e-4 })
    expect(beside?.violations.map(({ quantity }) => quantity)).toContain('ground beside the pair')
    expect(beside?.claimedError).toBeGreaterThan((without?.claimedError ?? NaN) + 0.1)
    expect(beside?.errorBasis).toContain('ground beside the pair')
  })

  it('lower the impedance of a pair by ground beside it, the more the nearer', () => {
    const shape: SectionShape = { width: 1e-4, thickness: 2e-5, gap: 1.2e-4, below: [[1e-4, 4]] }
    const [near, far, none] = [1e-4, 3e-4, undefined].map((coplanarGap) =>
      differential(coplanarGap === undefined ? shape : { ...shape, coplanarGap }),
    )
    expect(near).toBeLessThan(far ?? NaN)
    expect(far).toBeLessThan(none ?? NaN)
  })
})

describe('published pairs', () => {
  // AMD, UG583 v1.27 (2023-11-14), table 2-68: 4.0/4.0/4.0 mil is 86 ohm on the stripline layer where 4.0 mil alone
  // is 50 ohm; stated tolerance 10 %. The planes are put where the single trace becomes 50 ohm.
  it('4/4/4 mil between the planes of a 50 ohm trace is 86 ohm', () => {
    const shape = (spacing: number): SectionShape => {
      const sheet = [[(spacing - 0.6 * MIL) / 2, 4]] as const
      return { width: 4 * MIL, thickness: 0.6 * MIL, below: sheet, above: sheet, twoPlanes: true }
    }
    const single = (spacing: number): number => {
      const estimate = STRIPLINE[0]?.estimate(lineSection(shape(spacing)), TEST_FREQUENCY)
      return estimate?.modes.kind === 'single' ? estimate.modes.line.impedance : NaN
    }
    const spacing = bracketRoot((b) => single(b) - 50, 4 * MIL, 40 * MIL)
    expect(Math.abs(differential({ ...shape(spacing), gap: 4 * MIL }) - 86)).toBeLessThan(8.6)
  })

  // Electronics StackExchange 490814 (2020), field solution of the poster: 76.6/76.2 um over 168 um of 3.66 is 117 ohm.
  // Thickness and mask are not stated; usual finished outer copper is 30 to 50 um, usual mask 10 to 30 um.
  it('76.6/76.2 um over 168 um is 117 ohm for some usual copper and mask', () => {
    const shape: SectionShape = {
      ...{ width: 76.6 * MICROMETRE, gap: 76.2 * MICROMETRE, thickness: 30 * MICROMETRE },
      below: [[168 * MICROMETRE, 3.66]],
    }
    const coat = 30 * MICROMETRE
    const mask = { overLaminate: coat, overTrace: coat, permittivity: 3.5 }
    expect(differential(shape)).toBeGreaterThan(117)
    expect(differential({ ...shape, thickness: 50 * MICROMETRE, mask })).toBeLessThan(117)
  })

  // Practitioner report of a fabricator's figure: 10/7 mil, 0.67 mil copper, 5.1 mil of 4.2 is 80 ohm, no digit after the
  // point and no word of mask. A conflict, not tuned to: the field solution says 86.5 ohm bare, and 82.5 ohm under the mask
  // that a fabricator publishes for its boards, 0.8 mil over laminate and 0.5 mil over the trace, of 3.8.
  it('10/7 mil over 5.1 mil is not 80 ohm, bare or under a usual mask', () => {
    const bare: SectionShape = {
      ...{ width: 10 * MIL, gap: 7 * MIL, thickness: 0.67 * MIL },
      below: [[5.1 * MIL, 4.2]],
    }
    const mask = { overLaminate: 0.8 * MIL, overTrace: 0.5 * MIL, permittivity: 3.8 }
    for (const [shape, solved] of [
      [bare, 86.5],
      [{ ...bare, mask }, 82.5],
    ] as const) {
      const section = lineSection(shape)
      const { modes } = fieldModes(section, (sheet) => sheet.permittivity.relative, { levels: 2, order: 4 })
      const field = modes.kind === 'pair' ? 2 * modes.odd.impedance : NaN
      expect(Math.abs(field - solved)).toBeLessThan(0.05)
      expect(field).toBeGreaterThan(80.5)
      const [chosen] = estimates(section)
      expect(Math.abs(differential(shape) / field - 1)).toBeLessThan(chosen?.claimedError ?? NaN)
    }
  })

  // TI E2E forum 1322745: 3/4.1 mil, 35 um copper, 0.21 mm of 4.2 is said to be 138 ohm, by a tool not named. A conflict,
  // not tuned to: neither the closed forms nor the field solution come near.
  it('3/4.1 mil over 0.21 mm is not 138 ohm', () => {
    const section = lineSection({
      ...{ width: 3 * MIL, gap: 4.1 * MIL, thickness: 35 * MICROMETRE },
      below: [[210 * MICROMETRE, 4.2]],
    })
    const [chosen] = estimates(section)
    const { modes } = fieldModes(section, (sheet) => sheet.permittivity.relative, { levels: 2, order: 4 })
    const field = modes.kind === 'pair' ? 2 * modes.odd.impedance : NaN
    const ours = 2 * oddOf(chosen)
    expect(Math.abs(ours / field - 1)).toBeLessThan(chosen?.claimedError ?? NaN)
    // The field solution is good to 0.1 %; the closed forms' band alone is wider than the conflict.
    expect(Math.abs(field / 138 - 1)).toBeGreaterThan(0.05)
    expect(Math.abs(ours / 138 - 1)).toBeGreaterThan(0.05)
  })
})
