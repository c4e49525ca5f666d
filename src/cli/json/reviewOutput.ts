import { z } from 'zod'
import type { Review } from '../../review.ts'
import type { DrawnEscape } from './drawnEscape.ts'
import type { Envelope } from './envelope.ts'
import { finding } from './finding.ts'
import { assumed, band, count, layer, metres, ohms, opening, plain, secondsPerMetre } from './leaves.ts'
import { lineImpedance } from './lineImpedance.ts'
import { neckCoupling } from './neckCoupling.ts'
import { netSignal, skew } from './netSignal.ts'
import { packageEscape } from './packageEscape.ts'
import { namedSpreads, type NamedSpread } from './processSpread.ts'
import { passage } from './route.ts'
import { thicknessChoice } from './thicknessChoice.ts'

type LineEntry = Review['lines']['entries'][number]

/** What `review --json` writes. */
export interface ReviewOutput extends Envelope<'review'> {
  readonly summary: { readonly errors: number; readonly warnings: number; readonly notes: number }
  readonly escapes: readonly DrawnEscape[]
  readonly lines: readonly LineEntry[]
  readonly signals: Review['signals']
  readonly skews: Review['skews']
  readonly couplings: Review['couplings']
  readonly spreads: readonly NamedSpread[]
  readonly thicknesses: Review['thicknesses']
  readonly findings: Review['findings']
  readonly assumptions: Review['board']['assumptions']
}

const loaded = z
  .strictObject({
    impedance: ohms,
    effectivePermittivity: plain,
    delay: secondsPerMetre,
    band,
    ratio: plain.meta({ description: 'over the impedance between solid planes with nothing beside' }),
  })
  .meta({ id: 'LoadedLine', description: 'A neck as what stands beside it loads it' })

const lineEntry: z.ZodType<LineEntry> = z
  .strictObject({
    netClass: z.string(),
    layer,
    stretch: z.enum(['neck', 'main']),
    package: z.string().nullable(),
    width: metres.nullable(),
    gap: metres.nullable(),
    widthBasis: z.enum(['given', 'solved for the target', 'widest that fits the channel']),
    impedance: lineImpedance.nullable(),
    passage: passage.nullable().meta({
      description: 'all necks of planned routes that run on it; null where none does',
    }),
    loaded: loaded.nullable().meta({
      description: 'mean of those necks with what stands beside them; null where nothing does',
    }),
    range: z
      .strictObject({ lowest: ohms, highest: ohms })
      .nullable()
      .meta({ description: 'the necks among them that differ most' }),
    mostLoaded: z.strictObject({ passage, loaded }).nullable().meta({
      description: 'the one among them that what stands beside it changes most',
    }),
    runs: z
      .strictObject({ impedance: ohms, delay: secondsPerMetre, band })
      .nullable()
      .meta({ description: 'what a signal meets: loaded, or else between solid planes' }),
    refusal: z.string().nullable(),
    used: z.boolean(),
  })
  .meta({ id: 'LineEntry', description: 'A net class on a layer, as neck or as main route' })

/** Published as reference/schemas/review.schema.json. */
export const reviewOutput: z.ZodType<ReviewOutput> = z
  .strictObject({
    ...opening('review'),
    summary: z.strictObject({ errors: count, warnings: count, notes: count }),
    escapes: z.array(packageEscape),
    lines: z.array(lineEntry),
    signals: z.array(netSignal),
    skews: z.array(skew),
    couplings: z.array(neckCoupling),
    spreads: namedSpreads,
    thicknesses: z.array(thicknessChoice),
    findings: z.array(finding),
    assumptions: assumed,
  })
  .meta({ title: 'Review of a board' })
