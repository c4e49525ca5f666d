import { describe, expect, it } from 'vitest'
import { missesOf } from '../../../reference/bands/measure.ts'
import { FINE, FREQUENCY, KINDS, randomLines, WIDE } from '../../../reference/bands/sections.ts'
import table from '../../../reference/bands/closedForms.json' with { type: 'json' }
import { CATALOGUE } from '../../../src/impedance/catalogue.ts'

describe('the table of measured bands', () => {
  it('has every region of every closed form, and nothing else', () => {
    const counts = Object.fromEntries(CATALOGUE.map(({ id, regions }) => [id, [regions, regions, regions]]))
    expect(
      Object.fromEntries(
        Object.entries(table.forms).map(([id, { plain, fine, wide }]) => [
          id,
          [plain.length, fine.length, wide.length],
        ]),
      ),
    ).toEqual(counts)
  })

  it('claims a quarter more than the worst seen, or what the form adds by itself', () => {
    const all = Object.values(table.forms).flatMap(({ plain, fine, wide }) => [...plain, ...fine, ...wide])
    expect(all.filter(({ error }) => !(error >= 0.001))).toEqual([])
  })

  it.each(KINDS)(
    'is asked of finite numbers, however far a section is from a fine line: $structure, $arrangement, $sides',
    (kind) => {
      const answers = randomLines(kind, WIDE, 400, 9).flatMap((section) =>
        CATALOGUE.filter((formula) => formula.applies(section)).map((formula) =>
          formula.estimate(section, FREQUENCY),
        ),
      )
      const odd = answers.filter(({ modes, claimedError }) => {
        const all = modes.kind === 'single' ? [modes.line] : [modes.even, modes.odd]
        const sound = all.every(
          ({ impedance, effectivePermittivity }) =>
            impedance > 0 && Number.isFinite(impedance) && effectivePermittivity >= 1,
        )
        return !sound || !Number.isFinite(claimedError)
      })
      expect(answers.length).toBeGreaterThan(390)
      expect(odd.map(({ method, modes }) => [method.id, modes])).toEqual([])
    },
  )

  // The field solution stands for the truth here; it is held to exact fields and finite elements in its own tests.
  it.each(KINDS)(
    'holds on fresh sections: $structure, $arrangement, $sides',
    (kind) => {
      const found = randomLines(kind, FINE, 8, 4242).flatMap((section) => missesOf(section) ?? [])
      expect(found.length).toBeGreaterThan(6)
      const outside = found.flatMap(({ misses, band }) =>
        misses.filter(({ error, estimate }) => error > estimate.claimedError + band),
      )
      expect(
        outside.map(({ formula, error, estimate }) => [formula.id, error, estimate.claimedError]),
      ).toEqual([])
    },
    120_000,
  )
})
