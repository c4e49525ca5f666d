import { z } from 'zod'
import type { Leaves } from './leaves.ts'
import { text, whole } from './plainLeaves.ts'

function build(leaf: Leaves) {
  const edge = z.strictObject({
    rise: leaf.time,
    between: z.enum(['10-90', '20-80']).optional(),
    shape: z.enum(['gaussian', 'linear']).optional(),
  })
  const rate = z.union([
    leaf.bitRate.transform((bits) => ({ bits })),
    leaf.symbolRate.transform((symbols) => ({ symbols })),
  ])
  return z.strictObject({
    name: text,
    interface: text.optional(),
    structure: z.enum(['single', 'pair']).optional(),
    target: leaf.impedance.optional(),
    tolerance: leaf.tolerance.optional(),
    edge: z.union([leaf.time.transform((rise): z.output<typeof edge> => ({ rise })), edge]).optional(),
    data_rate: z
      .union([
        rate.transform((value) => ({ rate: value, levels: undefined })),
        z.strictObject({ rate, levels: whole(2, 16).optional() }),
      ])
      .optional(),
    neck: z.strictObject({ width: leaf.size.optional(), gap: leaf.size.optional() }).optional(),
    main: z
      .strictObject({
        width: leaf.size.optional(),
        gap: leaf.size.optional(),
        length: leaf.sizeOrZero.optional(),
        coplanar_gap: leaf.size.optional(),
      })
      .optional(),
    source_impedance: leaf.impedance.optional(),
    load_impedance: leaf.impedance.optional(),
    neck_allowance: z.strictObject({ length: leaf.size, source: text }).optional(),
    reflection_limit: leaf.share.optional(),
    pair_skew_limit: leaf.timeOrZero.optional(),
    group_skew_limit: leaf.timeOrZero.optional(),
  })
}

export type ClassSchema = ReturnType<typeof build>
export const classSchema = (leaf: Leaves): ClassSchema => build(leaf)
/** A net class as described, in SI. */
export type ClassText = z.output<ClassSchema>
