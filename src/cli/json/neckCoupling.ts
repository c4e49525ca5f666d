import { z } from 'zod'
import type { Review } from '../../review.ts'
import { band, layer, metres, ohms, ratio, seconds } from './leaves.ts'

type NeckCoupling = Review['couplings'][number]

const share = ratio.meta({
  description: 'fraction of the swing of the trace beside it, differential for pairs; matched ends',
})

const stretch = z
  .strictObject({
    gap: metres,
    length: metres,
    coupled: z.boolean().meta({ description: 'the two of the disturbed pair run side by side there' }),
  })
  .meta({ id: 'StretchBeside', description: 'where nothing stands between a neck and a trace beside it' })

const neighbour: z.ZodType<NeckCoupling['neighbours'][number]> = z
  .strictObject({
    net: z.string(),
    class: z.string(),
    width: metres,
    riseTime: seconds.meta({ description: 'seconds, 10 to 90 %, of the neighbour' }),
    stretches: z.array(stretch),
    smallestGap: metres,
    length: metres.meta({ description: 'metres side by side' }),
    delay: seconds.meta({ description: 'seconds one way along that length' }),
    backward: ratio.meta({ description: 'backward coefficient where it is largest' }),
    nearEnd: share,
    farEnd: share,
    impedance: z.strictObject({ withIt: ohms, againstIt: ohms }).nullable().meta({
      description: 'of the neck where this one is nearest, while it switches with it and against it',
    }),
  })
  .meta({ id: 'NeighbourNoise', description: 'A trace beside a neck, and what it sends into it' })

/** The traces beside a neck, as printed: the type of signal/neckCoupling.ts. */
export const neckCoupling: z.ZodType<NeckCoupling> = z
  .strictObject({
    net: z.string(),
    partner: z.string().nullable(),
    class: z.string(),
    structure: z.enum(['single', 'pair']),
    package: z.string(),
    layer,
    width: metres,
    gap: metres.nullable(),
    neighbours: z.array(neighbour),
    unsolved: z
      .array(z.string())
      .meta({ description: 'nets beside it whose row cannot be solved; they are in no sum' }),
    nearEnd: share.meta({ description: 'sum over the neighbours, all at the worst instant' }),
    farEnd: share.meta({ description: 'sum over the neighbours, all at the worst instant' }),
    band,
    limit: ratio,
    limitSource: z.string(),
  })
  .meta({ id: 'NeckCoupling', description: 'A neck, or the necks of a pair, and the traces beside it' })
