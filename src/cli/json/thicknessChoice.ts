import { z } from 'zod'
import type { ThicknessChoice } from '../../dielectric/thicknessChoice.ts'
import { band, layer, metres, ohms } from './leaves.ts'

/** Which thickness brings a trace to its target, as printed: the type of dielectric/thicknessChoice.ts. */
export const thicknessChoice: z.ZodType<ThicknessChoice> = z
  .strictObject({
    layer,
    netClass: z.string().nullable(),
    stretch: z.enum(['neck', 'main']),
    width: metres,
    gap: metres.nullable(),
    target: ohms,
    dielectric: z.string(),
    present: z.strictObject({ thickness: metres, impedance: ohms }),
    thickness: metres.nullable(),
    reached: z.strictObject({ impedance: ohms, band, method: z.string() }).nullable(),
    reason: z.string().nullable(),
    window: z.strictObject({ min: metres, max: metres }).nullable(),
    curve: z.array(z.strictObject({ thickness: metres, impedance: ohms, band })),
  })
  .meta({ id: 'ThicknessChoice' })
