/**
 * Measures every closed form against the field solution and writes closedForms.json beside this file:
 *
 *     node --import tsx reference/bands/generate.ts
 *
 * The band of a region is a quarter more than the worst error seen in it, less what the formula adds by itself for a
 * section that it has to prepare. Takes about ten minutes.
 */
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import prettier from 'prettier'
import { CATALOGUE } from '../../src/impedance/catalogue.ts'
import { type Regime, regimeOf, REGIMES } from '../../src/impedance/formulas/regimes.ts'
import { type Miss, missesOf } from './measure.ts'
import { FINE, FREQUENCY, KINDS, PLAIN, randomLines, WIDE } from './sections.ts'

const SEED = 20_261_125
/** Sections drawn of each kind, of single traces and of pairs; each counts in the regime where it lies. */
const DRAWS = [
  { draw: PLAIN, singles: 500, pairs: 300 },
  { draw: FINE, singles: 900, pairs: 400 },
  { draw: WIDE, singles: 250, pairs: 150 },
] as const
const MARGIN = 1.25
/** Where the worst was seen among few sections, another may be a good deal worse. */
const MARGIN_OF_FEW = 1.5
/** No band is smaller than that of the field solution it was measured against. */
const LEAST = 0.001
/** A region with fewer sections has the larger margin. */
const FEW = 400
/** And one with fewer still claims what the whole form needs. */
const TOO_FEW = 50

interface Tally {
  sections: number
  worst: number
  even: number | null
  /** What the band must be besides growth and added errors, by either margin. */
  needed: number
  neededOfFew: number
}

const tallies = new Map(
  CATALOGUE.map(({ id, regions }) => {
    const none = (): Tally[] =>
      Array.from({ length: regions }, () => ({
        sections: 0,
        worst: 0,
        even: null,
        needed: 0,
        neededOfFew: 0,
      }))
    return [id, { plain: none(), fine: none(), wide: none() } satisfies Record<Regime, Tally[]>]
  }),
)

for (const kind of KINDS) {
  for (const { draw, singles, pairs } of DRAWS) {
    const count = kind.arrangement === 'single' ? singles : pairs
    for (const section of randomLines(kind, draw, count, SEED)) {
      const regime = regimeOf(section, FREQUENCY)
      for (const miss of missesOf(section)?.misses ?? []) note(miss, regime)
    }
  }
  console.error(Object.values(kind).join(', '))
}

function note({ formula, error, even, region, growth, added }: Miss, regime: Regime): void {
  const tally = tallies.get(formula.id)?.[regime][region]
  if (tally === undefined) return
  tally.needed = Math.max(tally.needed, (MARGIN * error - added) / growth)
  tally.neededOfFew = Math.max(tally.neededOfFew, (MARGIN_OF_FEW * error - added) / growth)
  // Sections outside the last region only show that its law of growth is wide enough.
  if (growth > 1) return
  tally.sections += 1
  tally.worst = Math.max(tally.worst, error)
  if (even !== null) tally.even = Math.max(tally.even ?? 0, even)
}

/** A regime never claims less than a narrower one: its sections may lie as near. */
function measured(regions: readonly Tally[], narrower: readonly number[]): number[] {
  const whole = Math.max(...regions.map(({ neededOfFew }) => neededOfFew))
  return regions.map(({ sections, needed, neededOfFew }, index) => {
    const own = sections < TOO_FEW ? whole : sections < FEW ? neededOfFew : needed
    return Math.max(LEAST, narrower[index] ?? 0, rounded(own))
  })
}

const forms = Object.fromEntries(
  [...tallies].map(([id, byRegime]) => {
    let claims: number[] = []
    const rows = REGIMES.map((regime) => {
      const regions = byRegime[regime]
      claims = measured(regions, claims)
      return [
        regime,
        regions.map(({ sections, worst, even }, index) => ({
          sections,
          worst: rounded(worst),
          even: even === null ? null : rounded(even),
          error: claims[index],
        })),
      ]
    })
    return [id, Object.fromEntries(rows)]
  }),
)

/** Up to the next 0.01 %. */
function rounded(ratio: number): number {
  return Math.ceil(ratio * 1e4) / 1e4
}

const table = {
  title: 'Errors of the closed forms, measured against the field solution',
  source: 'this project: reference/bands/generate.ts',
  conditions: [
    `of each kind of single trace ${DRAWS.map(({ singles }) => singles).join(', ')} and of pair ${DRAWS.map(({ pairs }) => pairs).join(', ')} sections in three draws, seed ${SEED}: plain fine lines, fine lines (trace and gap 40 to 400 um, copper 10 to 60 um, dielectric 40 to 400 um a side, relative permittivity 2.8 to 4.8), and a wider range (trace and gap 25 to 1500 um, copper 5 to 100 um, dielectric 30 to 1500 um, permittivity 2 to 10)`,
    'plain: one sheet a side, permittivities within a tenth of each other, copper up to 0.6 of the width; side walls everywhere from upright to 70 degrees, mask 8 to 40 um over the laminate and thinner over the trace',
    'regions in the order of the formula in src/impedance/formulas; worst and even: largest relative error of the line impedance (odd mode of a pair) and of the even mode; error: what the formula claims there besides what it adds by itself',
  ],
  forms,
}

const file = join(import.meta.dirname, 'closedForms.json')
const options = await prettier.resolveConfig(file)
writeFileSync(file, await prettier.format(JSON.stringify(table), { ...options, parser: 'json' }))
