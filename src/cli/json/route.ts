import { z } from 'zod'
import type { DrawnRoute, PlacedVia } from './drawnEscape.ts'
import { count, layer, metres, point } from './leaves.ts'

/** Holes of a net, from the land inwards. */
export const vias: z.ZodType<readonly PlacedVia[]> = z
  .array(
    z
      .strictObject({
        name: z.string(),
        firstLayer: layer.meta({ description: 'copper layer on which the hole begins, 1 at the top' }),
        lastLayer: layer.meta({ description: 'copper layer on which the hole ends, before drilling back' }),
        at: point,
      })
      .meta({ id: 'PlacedVia', description: 'One drilled hole' }),
  )
  .meta({ description: 'holes from the land inwards; empty where the net leaves on the layer of its land' })

const stretch = z
  .strictObject({
    part: z.enum(['dog-bone', 'neck']),
    layer,
    width: metres.meta({ description: 'finished width at the foot of the trace, metres' }),
    path: z.array(point).meta({ description: 'centre line' }),
  })
  .meta({ id: 'Stretch', description: 'Copper of one width on one layer' })

const beside = z
  .strictObject({
    count,
    covers: metres.meta({
      description: 'length of the stretch that they stand beside, each for a pitch about its middle at most',
    }),
    distance: metres.meta({
      description:
        'from the centre line, of a coupled pair from the line between its traces, to the middle; to the micrometre',
    }),
    pitch: metres.meta({ description: 'from one such place to the next along the trace' }),
    pitchAcross: metres.meta({ description: 'the same across the trace' }),
    via: z.string().nullable().meta({ description: 'names of the holes; null for a land without a via' }),
    pad: metres
      .nullable()
      .meta({ description: 'diameter of the copper on the layer of the neck; null without' }),
    barrel: metres
      .nullable()
      .meta({ description: 'drilled diameter of the plated hole there; null without' }),
    supply: z
      .string()
      .nullable()
      .meta({ description: 'net of a via that feeds power or ground; null for signals and lands' }),
  })
  .meta({ id: 'BesideNeck', description: 'Equal vias or lands of other nets at one distance beside a neck' })

export const passage = z
  .strictObject({ length: metres, beside: z.array(beside) })
  .meta({ id: 'Passage', description: 'Necks, or stretches of them, and what stands beside them' })

const neckStretch = z.strictObject({ ...passage.shape, coupled: z.boolean() }).meta({
  id: 'NeckStretch',
  description: 'A part of a neck: the traces of a pair by themselves, or side by side',
})

/** How one net leaves its package, as printed: the type of routes/route.ts, with what a drawing of it needs. */
export const route: z.ZodType<DrawnRoute> = z
  .strictObject({
    net: z.string(),
    package: z.string(),
    ball: z.string(),
    exitLayer: layer.meta({ description: 'copper layer on which the net leaves, 1 at the top' }),
    via: z
      .string()
      .nullable()
      .meta({ description: 'names of the holes, joined by " + "; null without a hole' }),
    path: z.array(point).meta({
      description:
        'centre line on the exit layer, from the centre of the ball or via to half a pitch outside the last row',
    }),
    neckLength: metres.meta({
      description: 'along the centre line from the centre of the ball, dog-bone included, metres',
    }),
    dogBoneLength: metres.meta({ description: 'part of the neck on the layer of the land, metres' }),
    width: metres.meta({
      description:
        'finished width of the neck at the foot of the trace, metres; the main route is not planned',
    }),
    gap: metres
      .nullable()
      .meta({ description: 'edge to edge inside a pair, metres; null for single traces' }),
    viaDepth: metres.meta({ description: 'barrel that the signal runs through, metres' }),
    stubLength: metres.meta({ description: 'barrel that hangs beyond the exit layer, metres' }),
    uncoupledLength: metres.nullable().meta({
      description:
        'length over which the two of a pair do not run side by side, metres; null for single traces',
    }),
    stretches: z.array(neckStretch).meta({
      description: 'the neck on its exit layer, from the via or land outwards',
    }),
    leaves: z.enum(['top', 'bottom', 'left', 'right']).meta({
      description: "side of the package through which the net leaves, in the package's own frame",
    }),
    ring: count.meta({ description: 'ring of the ball, 1 at the edge' }),
    ballAt: point,
    vias,
    copper: z.array(stretch).meta({ description: 'what to draw, from the ball outwards' }),
  })
  .meta({ id: 'Route', description: 'How one net leaves its package' })
