import { z } from 'zod'
import type { CrossSection, LineRequest } from '../../section/crossSection.ts'
import { assumed, hertz, layer, metres, ohmMetres, plain, ratio } from './leaves.ts'

const permittivity = z
  .strictObject({ relative: plain, lossTangent: plain, frequency: hertz, tolerance: ratio })
  .meta({ id: 'Permittivity', description: 'Relative permittivity and loss tangent at a frequency' })

const sheet = z
  .strictObject({ name: z.string(), thickness: metres, permittivity })
  .meta({ id: 'DielectricSheet', description: 'One dielectric between trace and plane' })

const plane = z
  .strictObject({ layer, layerName: z.string(), net: z.string().nullable() })
  .meta({ id: 'ReferencePlane', description: 'A plane that carries the return current' })

/** What a trace sees, as printed: the type of section/crossSection.ts. */
export const crossSection: z.ZodType<CrossSection> = z
  .strictObject({
    layer,
    layerName: z.string(),
    upsideDown: z.boolean(),
    structure: z.enum(['microstrip', 'stripline']),
    arrangement: z.enum(['single', 'edge pair', 'broadside pair']),
    trace: z.strictObject({
      width: metres,
      topWidth: metres,
      thickness: metres,
      foot: z.enum(['below', 'above']),
      roughness: metres,
      resistivity: ohmMetres,
    }),
    gap: metres.nullable(),
    broadside: z.strictObject({ layer, sheets: z.array(sheet) }).nullable(),
    coplanarGap: metres.nullable(),
    below: z.array(sheet),
    above: z.array(sheet),
    mask: z.strictObject({ overLaminate: metres, overTrace: metres, permittivity }).nullable(),
    planeBelow: plane,
    planeAbove: plane.nullable(),
    emptyLayers: z.array(z.string()),
    assumed,
  })
  .meta({
    id: 'CrossSection',
    description: 'What the trace sees, derived from stackup, layer, width and gap',
  })

export const lineRequest: z.ZodType<LineRequest> = z
  .strictObject({
    layer,
    width: metres,
    gap: metres.nullable(),
    coplanarGap: metres.nullable(),
    broadsideLayer: layer.nullable(),
  })
  .meta({ id: 'LineRequest', description: 'The line that was asked for' })
