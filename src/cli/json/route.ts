import { z } from 'zod'
import type { Review } from '../../review.ts'
import { count, layer, metres } from './leaves.ts'

const point = z
  .strictObject({ x: metres, y: metres })
  .meta({ id: 'Point', description: "In the package's own frame" })

/** How one net leaves its package, as printed: the type of routes/route.ts. */
export const route: z.ZodType<Review['routes'][number]> = z
  .strictObject({
    net: z.string(),
    package: z.string(),
    ball: z.string(),
    exitLayer: layer,
    via: z.string().nullable(),
    path: z.array(point),
    neckLength: metres,
    dogBoneLength: metres,
    width: metres,
    gap: metres.nullable(),
    viaDepth: metres,
    stubLength: metres,
    ring: count,
    origin: z.enum(['planned', 'as routed']),
  })
  .meta({ id: 'Route', description: 'How one net leaves its package' })
