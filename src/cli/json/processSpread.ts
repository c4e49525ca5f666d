import { z } from 'zod'
import type { LineSpread } from '../../tolerance/lineSpreads.ts'
import type { ProcessSpread } from '../../tolerance/processSpread.ts'
import { layer, metres, ratio } from './leaves.ts'

type Entry = LineSpread['entry']

/** The spread of a line, which is named by what tells it from the other lines. */
export interface NamedSpread extends Pick<
  Entry,
  'netClass' | 'layer' | 'stretch' | 'package' | 'width' | 'gap'
> {
  readonly spread: ProcessSpread | null
}

export function namedSpread({ entry, spread }: LineSpread): NamedSpread {
  const { netClass, layer: number, stretch, package: pack, width, gap } = entry
  return { netClass, layer: number, stretch, package: pack, width, gap, spread }
}

const range = z.strictObject({ lowest: ratio, highest: ratio })
const quantity = z.enum(['trace width', 'dielectric thickness', 'copper thickness', 'permittivity'])

export const processSpread: z.ZodType<ProcessSpread> = z
  .strictObject({
    contributions: z.array(
      z.strictObject({
        quantity,
        of: z.string().meta({ description: 'layer of copper or dielectric' }),
        nominal: z.number().meta({ description: 'metres; a pure number for a permittivity' }),
        tolerance: ratio.meta({ description: 'half-width of its range' }),
        assumed: z.boolean().meta({ description: 'true where the description left the tolerance out' }),
        atLower: ratio,
        atUpper: ratio,
      }),
    ),
    byQuantity: z
      .strictObject({
        'trace width': range,
        'dielectric thickness': range,
        'copper thickness': range,
        permittivity: range,
      })
      .meta({ description: 'root sum of squares of one quantity' }),
    likely: range.meta({ description: 'root sum of squares of all' }),
    worst: range.meta({ description: 'all at their worse end at once' }),
  })
  .meta({
    id: 'ProcessSpread',
    description:
      'What the tolerances of process and material do to an impedance: over nominal, less 1, as fractions',
  })

export const namedSpreads: z.ZodType<readonly NamedSpread[]> = z.array(
  z.strictObject({
    netClass: z.string(),
    layer,
    stretch: z.enum(['neck', 'main']),
    package: z.string().nullable(),
    width: metres.nullable(),
    gap: metres.nullable(),
    spread: processSpread.nullable().meta({
      description: 'null where the line does not come out at an end of its tolerances',
    }),
  }),
)
