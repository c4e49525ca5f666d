import { describe, expect, it } from 'vitest'
import { fieldEstimate } from '../../src/impedance/fieldEstimate.ts'
import { physicsKey } from '../../src/impedance/physicsKey.ts'
import { permittivityIn } from '../../src/impedance/permittivityIn.ts'
import { missedRows, within } from '../helpers/compareTable.ts'
import { readFiniteElements, sectionOfCase } from '../helpers/finiteElementCases.ts'
import { lineSection, TEST_FREQUENCY } from '../helpers/lineSection.ts'

const section = lineSection({ width: 100e-6, thickness: 18e-6, below: [[100e-6, 4]] })

describe('fieldEstimate', () => {
  // Finite elements bounded from both sides, reference/field/finiteElements.json; each row's bound counts besides.
  it('lies inside the band that it claims, for every finite-element case that a section can express', () => {
    const rows = readFiniteElements().cases.flatMap((row) => {
      const drawn = sectionOfCase(row)
      if (drawn === null) return []
      const { modes, claimedError } = fieldEstimate(drawn, TEST_FREQUENCY)
      const band = claimedError + row.relativeBound
      const compared = (
        name: string,
        actual: number,
        expected: number | null,
      ): ReturnType<typeof within>[] =>
        expected === null ? [] : [within(band, `${row.name}, ${name}`, actual, expected)]
      return modes.kind === 'single'
        ? compared('single', modes.line.impedance, row.singleImpedance)
        : [
            ...compared('odd', modes.odd.impedance, row.oddImpedance),
            ...compared('even', modes.even.impedance, row.evenImpedance),
          ]
    })
    expect(rows.length).toBeGreaterThan(60)
    expect(missedRows(rows)).toBe('')
  })

  it('claims 0.1 % at best and half a percent at worst for those cases', () => {
    const claims = readFiniteElements().cases.flatMap((row) => {
      const drawn = sectionOfCase(row)
      return drawn === null ? [] : [fieldEstimate(drawn, TEST_FREQUENCY).claimedError]
    })
    expect(claims.filter((claim) => !(claim >= 0.001 && claim <= 0.005))).toEqual([])
  })

  it('solves equal sections once, whatever they are called', () => {
    const renamed = { ...section, layerName: 'elsewhere', layer: 7 }
    expect(fieldEstimate(renamed, TEST_FREQUENCY)).toBe(fieldEstimate(section, TEST_FREQUENCY))
  })
})

describe('physicsKey', () => {
  const keyOf = (of: typeof section): string => physicsKey(of, permittivityIn(TEST_FREQUENCY))

  it('differs with every size and permittivity, and with nothing else', () => {
    const { trace } = section
    const others = [
      { ...section, trace: { ...trace, width: 101e-6 } },
      { ...section, trace: { ...trace, topWidth: 99e-6 } },
      { ...section, trace: { ...trace, thickness: 19e-6 } },
      { ...section, trace: { ...trace, foot: 'above' as const } },
      { ...section, arrangement: 'edge pair' as const, gap: 1e-4 },
      { ...section, coplanarGap: 1e-4 },
      lineSection({ width: 100e-6, thickness: 18e-6, below: [[100e-6, 4.1]] }),
      lineSection({ width: 100e-6, thickness: 18e-6, below: [[101e-6, 4]] }),
      lineSection({ width: 100e-6, thickness: 18e-6, below: [[100e-6, 4]], above: [[50e-6, 4]] }),
      { ...section, planeAbove: section.planeBelow },
    ]
    expect(new Set([section, ...others].map(keyOf)).size).toBe(others.length + 1)
    expect(keyOf({ ...section, layerName: 'elsewhere', upsideDown: true })).toBe(keyOf(section))
  })
})
