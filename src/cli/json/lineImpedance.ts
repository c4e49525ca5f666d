import { z } from 'zod'
import type { Estimate, LineImpedance } from '../../impedance/estimate.ts'
import { crossSection } from './crossSection.ts'
import {
  band,
  faradsPerMetre,
  henriesPerMetre,
  hertz,
  nepersPerMetre,
  ohms,
  plain,
  secondsPerMetre,
} from './leaves.ts'

const limit = { quantity: z.string(), min: z.number(), max: z.number() }

const mode = z
  .strictObject({ impedance: ohms, effectivePermittivity: plain })
  .meta({ id: 'ModeConstants', description: 'One trace to ground in this mode' })

const estimate: z.ZodType<Estimate> = z
  .strictObject({
    method: z.strictObject({
      kind: z.enum(['closed form', 'field solution']),
      id: z.string(),
      title: z.string(),
      source: z.string(),
      ownFit: z.boolean(),
      limits: z.array(z.strictObject(limit)),
    }),
    modes: z.discriminatedUnion('kind', [
      z.strictObject({ kind: z.literal('single'), line: mode }),
      z.strictObject({ kind: z.literal('pair'), even: mode, odd: mode }),
    ]),
    claimedError: band,
    errorBasis: z.string(),
    violations: z.array(z.strictObject({ ...limit, value: z.number() })),
  })
  .meta({ id: 'Estimate', description: 'What one method says of the line' })

/** One line by every formula that applies, as printed: the type of impedance/estimate.ts. */
export const lineImpedance: z.ZodType<LineImpedance> = z
  .strictObject({
    section: crossSection,
    frequency: hertz,
    chosen: estimate,
    others: z.array(estimate),
    closedFormDifference: plain
      .nullable()
      .meta({ description: 'best closed form over field solution, less 1; null without one of them' }),
    impedance: ohms.meta({ description: 'ohms; differential for a pair' }),
    common: ohms.nullable(),
    effectivePermittivity: plain,
    delay: secondsPerMetre,
    capacitance: faradsPerMetre,
    inductance: henriesPerMetre,
    loss: z.strictObject({
      frequency: hertz,
      conductor: nepersPerMetre,
      dielectric: nepersPerMetre,
      roughnessFactor: plain,
      method: z.string(),
    }),
  })
  .meta({ id: 'LineImpedance' })
