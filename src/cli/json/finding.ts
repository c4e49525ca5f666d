import { z } from 'zod'
import type { Finding } from '../../findings/finding.ts'
import { assumed, band, layer } from './leaves.ts'

type Code = Finding['code']

/** Complete and without extras by its type. */
const CODES: Readonly<Record<Code, true>> = {
  'neck-off-target': true,
  'main-off-target': true,
  'step-too-large': true,
  'neck-too-long': true,
  'process-decides': true,
  'channel-too-narrow': true,
  'ball-not-escaped': true,
  'drill-too-near': true,
  'mask-too-near': true,
  'annular-ring-too-small': true,
  'aspect-ratio-too-high': true,
  'span-unbuildable': true,
  'trace-over-antipad': true,
  'vias-load-neck': true,
  'neck-couples': true,
  'antipads-merge': true,
  'below-capability': true,
  'formula-outside-limits': true,
  'assumed-input-decides': true,
  'stub-too-long': true,
  'skew-too-large': true,
  'claim-refuted': true,
  'thickness-does-not-add-up': true,
}

const measure = z
  .strictObject({
    what: z.string(),
    value: z.number(),
    unit: z.enum(['m', 'ohm', 's', 'Hz', 'F', 'fraction', 'percent', 'count', 'layer', 'text']),
    band: band.nullable(),
  })
  .meta({ id: 'Measure' })

/** One finding, as printed: the type of findings/finding.ts. */
export const finding: z.ZodType<Finding> = z
  .strictObject({
    code: z.enum(Object.keys(CODES) as [Code, ...Code[]]),
    severity: z.enum(['error', 'warning', 'note']),
    subject: z.strictObject({
      kind: z.enum(['net', 'class', 'package', 'via', 'layer', 'board', 'pair', 'group']),
      name: z.string(),
      layer: layer.nullable(),
      package: z.string().nullable(),
      alike: z.array(z.string()),
    }),
    measured: measure,
    limit: measure,
    limitSource: z.string(),
    remedies: z.array(z.strictObject({ action: z.string(), value: measure, result: measure })),
    details: z.array(measure),
    assumed,
  })
  .meta({ id: 'Finding', description: 'A fault, or something to know' })
