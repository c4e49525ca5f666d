import { z } from 'zod'
import type { ClearanceFault, EscapePlan } from '../../escape/escape.ts'
import type { DrawnPlan } from './drawnEscape.ts'
import { assumed, count, layer, metres, plain, point } from './leaves.ts'
import { route, vias } from './route.ts'

export const technology: z.ZodType<EscapePlan['technology']> = z
  .enum(['through', 'blind'])
  .meta({ description: 'blind covers laser microvias' })

const standing = z
  .strictObject({
    ball: z.string(),
    at: point,
    kind: z.enum(['land', 'via pad', 'hole']).meta({ description: 'hole: drilled, without a pad here' }),
    diameter: metres.meta({ description: 'of the copper, or of the drill where there is no pad, metres' }),
    reach: metres.meta({ description: 'from the centre to the nearest edge of a trace, metres' }),
    layers: z.array(layer).meta({ description: 'layers of the plan on which it stands like this' }),
  })
  .meta({
    id: 'Standing',
    description: 'A land, a via pad or a bare hole, with the layers it is the same on',
  })

const gate = z
  .strictObject({
    from: point,
    to: point,
    balls: z.tuple([z.string(), z.string()]).meta({ description: 'balls that the two obstacles belong to' }),
    clear: metres.meta({ description: 'room for traces and their gaps between the two, metres' }),
    traces: count.meta({ description: 'whole traces that pass' }),
  })
  .meta({ id: 'Gate', description: 'The way between two neighbouring obstacles' })

const bound = z
  .strictObject({
    waiting: count.meta({ description: 'signal balls that waited for the layer' }),
    escaped: count.meta({ description: 'those that the plan lets out' }),
    atMost: count.meta({
      description: 'no plan lets more single nets out here while the vias stand; proven by the cut',
    }),
    width: metres.meta({ description: 'width counted with: the finest trace that waited, metres' }),
    gap: metres.meta({ description: 'gap between traces counted with, metres' }),
    cut: z.array(gate).meta({ description: 'gates that every way out passes one of' }),
  })
  .meta({ id: 'LayerBound', description: 'What one layer can do for single nets' })

const layerPlan = z
  .strictObject({
    layer,
    escaped: count.meta({ description: 'nets that leave on the layer' }),
    ringsFreed: z.array(count).meta({ description: 'rings wholly out after the layer, 1 at the edge' }),
    obstacles: count.meta({ description: 'vias that stand in the way on the layer, of every net' }),
    tracesPerChannel: plain,
    longestNeck: metres.nullable(),
    bound: bound.nullable().meta({ description: 'null where no net waited for the layer' }),
  })
  .meta({ id: 'LayerPlan', description: 'What one layer does in a plan' })

export const clearanceFault: z.ZodType<ClearanceFault> = z
  .strictObject({
    layer,
    ball: z.string().meta({ description: 'whose copper it is' }),
    other: z.string().meta({ description: 'what it comes too near to' }),
    otherBall: z.string().nullable().meta({ description: 'ball of that; null for a keep-out' }),
    rule: z.enum([
      'trace to trace',
      'trace to pad',
      'mask opening to trace',
      'drill to copper',
      'keep-out',
      'pad to pad',
    ]),
    found: metres.meta({ description: 'edge to edge, metres; below zero where the two overlap' }),
    needed: metres,
  })
  .meta({ id: 'ClearanceFault', description: 'Copper nearer to something else than a rule allows' })

const clearanceCheck = z
  .strictObject({
    compared: count.meta({ description: 'pairs of shapes whose distance was compared with the rules' }),
    faults: z.array(clearanceFault).meta({ description: 'none, unless the planner is at fault' }),
  })
  .meta({ id: 'ClearanceCheck', description: 'What the clearance check of the finished plan found' })

/** One plan, as printed: the type of escape/escape.ts, its routes ready to draw. */
export const escapePlan: z.ZodType<DrawnPlan> = z
  .strictObject({
    package: z.string(),
    technology,
    method: z.string(),
    layers: z.array(layerPlan),
    standing: z.array(standing).meta({ description: 'what stands on each layer of the finished plan' }),
    routes: z.array(route),
    unescaped: z.array(
      z.strictObject({ ball: z.string(), net: z.string(), ring: count, reason: z.string() }),
    ),
    supplies: z
      .array(z.strictObject({ ball: z.string(), via: z.string(), endLayer: layer, vias }))
      .meta({ description: 'vias under power and ground balls' }),
    dogBones: z
      .array(z.strictObject({ ball: z.string(), from: point, to: point, width: metres }))
      .meta({ description: 'copper from a land to its via on the layer of the lands, of every net' }),
    atLeastLayers: count.nullable().meta({
      description:
        'no plan gets every signal ball out on fewer signal layers; null where no number is enough',
    }),
    check: clearanceCheck,
    assumed,
  })
  .meta({ id: 'EscapePlan', description: 'Which net leaves on which layer, by one via technology' })
