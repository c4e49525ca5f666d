import { z } from 'zod'
import { text, whole } from './plainLeaves.ts'
import type { Leaves } from './leaves.ts'

/** One schema a kind of layer: the first key of a layer says which it is. */
function build(leaf: Leaves) {
  const dielectric = {
    material: text.optional(),
    thickness: leaf.size.optional(),
    plies: z
      .array(z.strictObject({ style: text, count: whole(1, 20).optional(), thickness: leaf.size.optional() }))
      .optional(),
    thickness_tolerance: leaf.tolerance.optional(),
    permittivity: leaf.permittivity.optional(),
    loss_tangent: leaf.share.optional(),
    at: leaf.frequency.optional(),
    permittivity_tolerance: leaf.tolerance.optional(),
  }
  return {
    header: z.strictObject({
      total_thickness: leaf.size.optional(),
      thickness_tolerance: leaf.tolerance.optional(),
      copper_resistivity: leaf.resistivity.optional(),
      layers: z.array(z.unknown()).min(1).max(200),
    }),
    mask: z.strictObject({
      mask: text,
      over_laminate: leaf.size.optional(),
      over_trace: leaf.size.optional(),
      permittivity: leaf.permittivity.optional(),
      loss_tangent: leaf.share.optional(),
      at: leaf.frequency.optional(),
      permittivity_tolerance: leaf.tolerance.optional(),
    }),
    copper: z.strictObject({
      copper: text,
      role: z.enum(['signal', 'plane', 'mixed']).optional(),
      net: text.optional(),
      thickness: leaf.copper.optional(),
      foil: leaf.copper.optional(),
      plating: leaf.sizeOrZero.optional(),
      bonded_to: z.enum(['above', 'below']).optional(),
      sidewall: leaf.sidewall.optional(),
      etch_factor: leaf.factor.optional(),
      roughness: leaf.sizeOrZero.optional(),
      thickness_tolerance: leaf.tolerance.optional(),
    }),
    core: z.strictObject({ core: text, ...dielectric }),
    prepreg: z.strictObject({
      prepreg: text,
      ...dielectric,
      coverage: z.strictObject({ above: leaf.share.optional(), below: leaf.share.optional() }).optional(),
    }),
  }
}

export type StackupSchema = ReturnType<typeof build>
export const stackupSchema = (leaf: Leaves): StackupSchema => build(leaf)

export type StackupHeader = z.output<StackupSchema['header']>
export type MaskText = z.output<StackupSchema['mask']>
export type CopperText = z.output<StackupSchema['copper']>
export type CoreText = z.output<StackupSchema['core']>
export type PrepregText = z.output<StackupSchema['prepreg']>

export const LAYER_KINDS = ['mask', 'copper', 'core', 'prepreg'] as const
export type LayerKind = (typeof LAYER_KINDS)[number]
