import { z } from 'zod'
import type { Review } from '../../review.ts'
import { assumed, band, farads, hertz, layer, metres, ohms, plain, ratio, seconds } from './leaves.ts'

const section = z
  .strictObject({
    kind: z.enum(['dog-bone', 'via', 'neck', 'main']),
    package: z.string().nullable(),
    layer,
    width: metres.nullable(),
    gap: metres.nullable(),
    length: metres.nullable(),
    impedance: ohms.nullable(),
    band: band.nullable(),
    method: z.string(),
    delay: seconds.nullable(),
    hanging: z
      .strictObject({ impedance: ohms, delay: seconds, capacitance: farads, loadingDelay: seconds })
      .nullable()
      .meta({ description: 'pad and barrel that hang beyond the exit layer: an open line in parallel' }),
  })
  .meta({ id: 'NetSection', description: 'One stretch of a net' })

const step = z
  .strictObject({
    from: z.string(),
    to: z.string(),
    layer,
    impedanceFrom: ohms,
    impedanceTo: ohms,
    reflection: ratio,
  })
  .meta({ id: 'Step', description: 'Where the impedance changes' })

const peak = { shortSection: ratio, exact: ratio }

const stub = z.strictObject({
  length: metres,
  nullFrequency: hertz,
  loading: plain,
  nyquist: hertz.nullable(),
  lengthLimit: metres.nullable(),
  limitSource: z.string(),
})

const end = z
  .strictObject({
    package: z.string(),
    ball: z.string(),
    layer,
    width: metres,
    gap: metres.nullable(),
    neckImpedance: ohms,
    mainImpedance: ohms,
    neckLength: metres,
    neckDelay: seconds,
    riseTime: seconds.meta({ description: 'seconds, 10 to 90 %' }),
    edgeLength: metres,
    electricalLength: z.strictObject({
      share: ratio,
      limit: ratio,
      limitSource: z.string(),
      long: z.boolean(),
    }),
    reflection: z.strictObject({
      mainBothSides: z.strictObject(peak),
      device: z.strictObject({ ...peak, deviceImpedance: ohms }),
      limit: ratio,
      limitSource: z.string(),
      atNyquist: z.strictObject({ frequency: hertz, magnitude: ratio }).nullable(),
      withoutVia: ratio
        .nullable()
        .meta({ description: 'the larger peak if the via of the net were not there' }),
    }),
    allowance: z.strictObject({ length: metres, source: z.string(), exceeded: z.boolean() }).nullable(),
    stub: stub.nullable(),
  })
  .meta({ id: 'EndSignal', description: 'The neck at one end of a net' })

/** One net as its sections in series, as printed: the type of signal/netSignal.ts. */
export const netSignal: z.ZodType<Review['signals'][number]> = z
  .strictObject({
    net: z.string(),
    class: z.string(),
    structure: z.enum(['single', 'pair']),
    sections: z.array(section),
    steps: z.array(step),
    ends: z.array(end),
    perLayer: z.array(z.strictObject({ layer, length: metres, delay: seconds })),
    totalLength: metres,
    totalDelay: seconds,
    breakoutOnly: z.boolean(),
    assumed,
  })
  .meta({ id: 'NetSignal' })

const arrival = z.strictObject({ net: z.string(), delay: seconds })

/** Skew of a pair or a match group, as printed: the type of signal/netSignal.ts. */
export const skew: z.ZodType<Review['skews'][number]> = z
  .strictObject({
    kind: z.enum(['pair', 'group']),
    name: z.string(),
    nets: z.array(z.string()),
    earliest: arrival,
    latest: arrival,
    skew: seconds,
    limit: seconds.nullable(),
    toBeCompensated: z.boolean(),
  })
  .meta({ id: 'Skew' })
