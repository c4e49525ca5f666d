import { z } from 'zod'
import { classSchema } from './classSchema.ts'
import { fabricationSchema } from './fabricationSchema.ts'
import type { Leaves } from './leaves.ts'
import { netSchema } from './netSchema.ts'
import { packageSchema } from './packageSchema.ts'
import { text, whole } from './plainLeaves.ts'
import { stackupSchema } from './stackupSchema.ts'
import { viaSchema } from './viaSchema.ts'

/**
 * Every part of a description as a schema of its own, so that a slip in one part does not keep the
 * others from being read.
 */
function build(leaf: Leaves) {
  const parts = z.array(z.unknown())
  return {
    top: z.strictObject({
      title: text,
      revision: text.optional(),
      author: text.optional(),
      date: text.optional(),
      units: z.enum(['mm', 'mil']).optional(),
      stackup: z.unknown(),
      vias: parts.max(100),
      fabrication: z.unknown().optional(),
      packages: parts.min(1).max(100),
      classes: parts.max(500).optional(),
      nets: parts.max(20_000).optional(),
      claims: parts.max(200).optional(),
      analysis: z.unknown().optional(),
    }),
    layer: stackupSchema(leaf),
    via: viaSchema(leaf),
    fabrication: fabricationSchema(leaf),
    package: packageSchema(leaf),
    class: classSchema(leaf),
    net: netSchema(leaf),
    claim: z.strictObject({
      package: text,
      technology: z.enum(['through', 'blind']),
      signal_layers: whole(1, 100),
      source: text,
    }),
    analysis: z.strictObject({
      frequency: leaf.frequency.optional(),
      comparison_tolerance: leaf.sizeOrZero.optional(),
      reflection_limit: leaf.share.optional(),
      electrical_length_limit: leaf.share.optional(),
      crosstalk_limit: leaf.share.optional(),
    }),
  }
}

export type BoardSchemas = ReturnType<typeof build>

/** Made once for each set of leaves. */
const known = new WeakMap<Leaves, BoardSchemas>()

export const boardSchemas = (leaf: Leaves): BoardSchemas => {
  const schemas = known.get(leaf) ?? build(leaf)
  known.set(leaf, schemas)
  return schemas
}

export type TopText = z.output<BoardSchemas['top']>
export type ClaimText = z.output<BoardSchemas['claim']>
export type AnalysisText = z.output<BoardSchemas['analysis']>
