import { z } from 'zod'
import type { Leaves } from './leaves.ts'
import { text, whole } from './plainLeaves.ts'

function limits(leaf: Leaves) {
  const sides = z.union([
    leaf.size,
    z.strictObject({ outer: leaf.size.optional(), inner: leaf.size.optional() }),
  ])
  return {
    trace_width: sides.optional(),
    trace_gap: sides.optional(),
    trace_to_pad: sides.optional(),
    mask_opening_to_trace: leaf.sizeOrZero.optional(),
    drill_to_copper: leaf.size.optional(),
    hole_to_hole: leaf.size.optional(),
    annular_ring: z
      .strictObject({
        ipc_class: z.union([z.literal(2), z.literal(3)]).optional(),
        external: leaf.sizeOrZero.optional(),
        internal: leaf.sizeOrZero.optional(),
        source: text.optional(),
      })
      .optional(),
    aspect_ratio: z
      .union([
        leaf.factor,
        z.strictObject({ drilled: leaf.factor.optional(), microvia: leaf.factor.optional() }),
      ])
      .optional(),
    stacked_microvias: whole(1, 20).optional(),
    registration: leaf.sizeOrZero.optional(),
    width_tolerance: leaf.tolerance.optional(),
    width_tolerance_floor: leaf.sizeOrZero.optional(),
    impedance_tolerance: leaf.tolerance.optional(),
    minimum_dielectric: leaf.size.optional(),
    mask_web: leaf.sizeOrZero.optional(),
    drawn_width_excess: leaf.coordinate.optional(),
  }
}

function build(leaf: Leaves) {
  return z.strictObject({
    class: text.optional(),
    source: text.optional(),
    date: text.optional(),
    ...limits(leaf),
  })
}

export type FabricationSchema = ReturnType<typeof build>
export const fabricationSchema = (leaf: Leaves): FabricationSchema => build(leaf)
/** Capability limits as described, in SI. */
export type FabricationText = z.output<FabricationSchema>
