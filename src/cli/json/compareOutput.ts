import { z } from 'zod'
import type { TechnologyComparison } from '../../compare.ts'
import type { Envelope } from './envelope.ts'
import { technology } from './escapePlan.ts'
import { assumed, band, count, layer, metres, ohms, opening, plain, ratio } from './leaves.ts'
import { layerRule } from './packageEscape.ts'

/** What `compare --json` prints. */
export interface CompareOutput extends Envelope<'compare'> {
  readonly comparisons: readonly TechnologyComparison[]
}

const longestNeck = z.strictObject({ length: metres, net: z.string(), ball: z.string(), layer })

const worstNeck = z
  .strictObject({
    kind: z.enum(['line', 'differential']).meta({ description: 'differential: of a pair, coupled or apart' }),
    impedance: ohms,
    band,
    method: z.string(),
    between: z
      .enum(['among vias', 'solid planes'])
      .meta({ description: 'whether the vias that stand beside it are counted' }),
    netClass: z.string(),
    target: ohms,
    tolerance: ratio,
    tolerances: plain.meta({ description: 'off the target, over its tolerance: 1 and -1 are its ends' }),
    layer,
    width: metres,
    gap: metres.nullable(),
    net: z.string(),
    ball: z.string(),
  })
  .meta({ id: 'WorstNeck', description: 'The neck furthest from the target of its class' })

const outcome = z
  .strictObject({
    signalLayers: count.meta({ description: 'layers on which nets leave, whether or not all do' }),
    layersReached: count.meta({ description: 'signal layers that the lands or a hole reach' }),
    layersNeeded: z
      .string()
      .meta({ description: 'in words; more than those reached where nets stay inside' }),
    netsOut: count,
    unescaped: count.meta({ description: 'nets that stay inside' }),
    whyNot: z.string().nullable().meta({ description: 'why the first of them does' }),
    longestNeck: longestNeck.nullable(),
    worstNeck: worstNeck.nullable(),
    atLeastLayers: count.nullable().meta({
      description:
        'no plan gets every signal ball out on fewer signal layers; null where no number is enough',
    }),
    rules: z.array(layerRule).meta({ description: 'rules of thumb for these vias, beside the plan' }),
    cost: z
      .strictObject({
        rank: count.meta({ description: '1 for the cheapest, equal ones alike; an order, not money' }),
        basis: z.string(),
      })
      .nullable()
      .meta({ description: 'null where nets stay inside' }),
    notes: z.array(z.string()),
    faults: count.meta({ description: 'clearances the plan broke: none, unless the planner is at fault' }),
  })
  .meta({ id: 'Outcome', description: 'What the plan of one way comes to' })

const row = z
  .strictObject({
    id: z.enum([
      'as described',
      'through vias',
      'blind vias',
      'microvias in the lands',
      'inner pads removed',
      'inner pads kept',
      'smallest via pads',
      'finest traces',
      'one trace per channel',
      'two traces per channel',
    ]),
    change: z.string().meta({ description: 'what differs from the description, or why nothing does or can' }),
    state: z.enum(['differs', 'as described', 'cannot be built']),
    technology,
    assumed,
    outcome: outcome.nullable().meta({ description: 'null where it cannot be built' }),
  })
  .meta({ id: 'TechnologyRow', description: 'One way to build the breakout' })

const comparison: z.ZodType<TechnologyComparison> = z
  .strictObject({
    package: z.string(),
    signals: z.strictObject({ count, assumed: z.boolean(), deepestRing: count }),
    signalLayers: count.meta({ description: 'copper layers of the stackup that carry signals' }),
    rows: z.array(row),
    costRules: z.array(z.string()),
  })
  .meta({ id: 'TechnologyComparison' })

/** Published as reference/schemas/compare.schema.json. */
export const compareOutput: z.ZodType<CompareOutput> = z
  .strictObject({ ...opening('compare'), comparisons: z.array(comparison) })
  .meta({ title: 'Ways to build the breakout of every package of a board' })
