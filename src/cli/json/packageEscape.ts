import { z } from 'zod'
import type { LayerRule } from '../../escape/escape.ts'
import type { DrawnEscape } from './drawnEscape.ts'
import { clearanceFault, escapePlan, technology } from './escapePlan.ts'
import { count, layer, metres, plain, point } from './leaves.ts'

const channelTest = z.strictObject({
  rule: z.enum(['trace to pad', 'mask opening to trace', 'drill to copper']),
  obstacleDiameter: metres,
  clearance: metres,
  clear: metres,
})

const channelFit = z
  .strictObject({
    layer,
    obstacle: z.enum(['land', 'via pad', 'hole without pad']),
    direction: z.enum(['between columns', 'between rows', 'diagonal']),
    innerPads: z.enum(['kept', 'removed']),
    netClass: z.string(),
    width: metres,
    traceGap: metres,
    span: metres,
    tests: z.array(channelTest),
    governing: channelTest,
    traces: count,
    remainder: metres,
    widestOne: metres.nullable(),
    widestTwo: metres.nullable(),
  })
  .meta({ id: 'ChannelFit', description: 'What one channel lets through, at one width and gap' })

export const layerRule: z.ZodType<LayerRule> = z
  .strictObject({
    id: z.enum(['rows', 'signals to channels, up', 'signals to channels, nearest', 'rows over four']),
    technology: z.enum(['through', 'blind', 'any']),
    tracesPerChannel: plain,
    basis: z.string(),
    unrounded: plain.nullable(),
    signalLayers: count.nullable(),
    source: z.string(),
  })
  .meta({ id: 'LayerRule', description: 'Signal layers needed by one rule of thumb' })

const claim = z.strictObject({
  technology,
  claimed: count,
  source: z.string(),
  computed: count.nullable(),
  verdict: z.enum(['confirmed', 'refuted']),
  reason: z.string(),
})

const mainStart = z
  .strictObject({
    ball: z.string(),
    layer,
    runOn: z.array(point).meta({
      description:
        'the part of the neck beyond half a pitch outside, which makes room for the main route; empty where it has room at once',
    }),
    runOnLength: metres,
    width: metres.meta({ description: 'finished width of the main route at the foot of the trace, metres' }),
    path: z.array(point).meta({ description: 'centre line from where the trace has its main width' }),
  })
  .meta({ id: 'MainStart', description: 'The beginning of a main route outside its package' })

const withoutMain = z
  .strictObject({
    ball: z.string(),
    net: z.string(),
    layer,
    reason: z.enum(['no width', 'too near']).meta({
      description: 'no width: none that can be etched reaches the target on the layer',
    }),
    fault: clearanceFault.nullable().meta({
      description: 'what the main route would come too near to; null where no width is known',
    }),
  })
  .meta({ id: 'WithoutMain', description: 'A net that leaves, but whose main route is not drawn' })

/** Everything the escape stage says of one package, as printed: the type of escape/escape.ts, its routes ready to draw. */
export const packageEscape: z.ZodType<DrawnEscape> = z
  .strictObject({
    package: z.string(),
    channelsPerLayer: count,
    signals: z.strictObject({ count, assumed: z.boolean(), deepestRing: count }),
    channels: z.array(channelFit),
    rules: z.array(layerRule),
    claims: z.array(claim),
    plans: z.array(escapePlan),
    chosen: technology,
    mains: z.array(mainStart).meta({
      description: 'where necks of the chosen plan widen',
    }),
    withoutMain: z
      .array(withoutMain)
      .meta({ description: 'nets that the chosen plan lets out without that' }),
  })
  .meta({ id: 'PackageEscape' })
