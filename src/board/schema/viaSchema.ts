import { z } from 'zod'
import type { Leaves } from './leaves.ts'
import { layerReference, text } from './plainLeaves.ts'

function build(leaf: Leaves) {
  return z.strictObject({
    name: text,
    kind: z.enum(['through', 'blind', 'buried', 'microvia']),
    layers: z.tuple([layerReference, layerReference]).optional(),
    drilled: leaf.size.optional(),
    finished: leaf.size.optional(),
    plating: leaf.size.optional(),
    pad: z.union([leaf.size, z.record(text, leaf.size)]).optional(),
    antipad: leaf.size.optional(),
    unconnected_inner_pads: z.enum(['kept', 'removed']).optional(),
    backdrill: z
      .strictObject({
        diameter: leaf.size.optional(),
        from: z.enum(['top', 'bottom']).optional(),
        residual_stub: leaf.sizeOrZero.optional(),
      })
      .optional(),
    in_pad: z.boolean().optional(),
    filled: z.boolean().optional(),
    capped: z.boolean().optional(),
    arrangement: z.enum(['stacked', 'staggered']).optional(),
  })
}

export type ViaSchema = ReturnType<typeof build>
export const viaSchema = (leaf: Leaves): ViaSchema => build(leaf)
/** A via as described, in SI. */
export type ViaText = z.output<ViaSchema>
