import { z } from 'zod'
import { escapeSchema } from './escapeSchema.ts'
import type { Leaves } from './leaves.ts'
import { text, whole } from './plainLeaves.ts'

/** Rows, or columns, of the largest grid that is read. */
export const MAX_GRID = 100

function build(leaf: Leaves) {
  return z.strictObject({
    name: text,
    part: text.optional(),
    side: z.enum(['top', 'bottom']).optional(),
    at: z.tuple([leaf.coordinate, leaf.coordinate]).optional(),
    rotation: leaf.angle.optional(),
    grid: z
      .strictObject({
        rows: whole(1, MAX_GRID).optional(),
        columns: whole(1, MAX_GRID).optional(),
        pitch: leaf.size.optional(),
        pitch_x: leaf.size.optional(),
        pitch_y: leaf.size.optional(),
        via_pitch: leaf.size.optional(),
        via_pitch_x: leaf.size.optional(),
        via_pitch_y: leaf.size.optional(),
        stagger: leaf.coordinate.optional(),
      })
      .optional(),
    pitch: leaf.size.optional(),
    missing: z.array(text).optional(),
    only: z.array(text).optional(),
    balls: z.array(z.strictObject({ name: text, x: leaf.coordinate, y: leaf.coordinate })).optional(),
    ball_diameter: leaf.size.optional(),
    land: leaf.size.optional(),
    mask_opening: leaf.size.optional(),
    via: text.optional(),
    via_placement: z.enum(['dog-bone', 'in pad']).optional(),
    nets: z.record(z.string(), z.union([text, z.null()])).optional(),
    ball_map: text.optional(),
    net_prefix: z.string().optional(),
    power: z.array(text).optional(),
    ground: z.array(text).optional(),
    unlisted: z.enum(['power', 'ground', 'signal', 'unused']).optional(),
    signal_share: leaf.share.optional(),
    escape: escapeSchema(leaf).optional(),
  })
}

export type PackageSchema = ReturnType<typeof build>
export const packageSchema = (leaf: Leaves): PackageSchema => build(leaf)
/** A package as described, in SI. */
export type PackageText = z.output<PackageSchema>
