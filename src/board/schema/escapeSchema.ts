import { z } from 'zod'
import type { Leaves } from './leaves.ts'
import { layerReference, text } from './plainLeaves.ts'

/** What one entry means: exactly one of these keys. */
const selection = {
  match: text
    .meta({ description: 'Pattern of net names: * for any run of characters, ? for one' })
    .optional(),
  name: text.meta({ description: 'One net' }).optional(),
  class: text.meta({ description: 'All nets of a class' }).optional(),
  group: text.meta({ description: 'All nets of a match group' }).optional(),
}

const layers = z.array(layerReference).min(1).max(100)

function build(leaf: Leaves) {
  const corner = z.tuple([leaf.coordinate, leaf.coordinate])
  return z.strictObject({
    layers: layers
      .meta({ description: 'Copper layers that may carry nets out, in the order in which they are filled' })
      .optional(),
    priority: z
      .array(z.union([text, z.strictObject(selection)]))
      .max(2000)
      .meta({
        description:
          'Nets planned before all others, most important first; a text alone is a pattern; nets of one entry are equals',
      })
      .optional(),
    priority_layers: z
      .enum(['shallow', 'deep'])
      .meta({ description: 'Layers on which the nets of priority are tried first' })
      .optional(),
    sides: z
      .array(z.strictObject({ ...selection, side: z.enum(['top', 'bottom', 'left', 'right']) }))
      .max(2000)
      .meta({
        description:
          'Side of the package through which nets must leave, row A at the top and column 1 at the left; both nets of a pair where one is meant; later entries override',
      })
      .optional(),
    keep_outs: z
      .array(z.strictObject({ name: text, layers: layers.optional(), from: corner, to: corner }))
      .max(1000)
      .meta({
        description:
          'Rectangles that no trace may touch, by two opposite corners: top view of the package, origin at the middle of its grid, x to the right, y upwards',
      })
      .optional(),
    apart: z
      .array(z.strictObject({ groups: z.tuple([text, text]), gap: leaf.size }))
      .max(1000)
      .meta({
        description: 'Match groups whose traces keep this gap on one layer, edge to edge',
      })
      .optional(),
  })
}

export type EscapeSchema = ReturnType<typeof build>
export const escapeSchema = (leaf: Leaves): EscapeSchema => build(leaf)
/** What a package wishes for its escape, in SI. */
export type EscapeText = z.output<EscapeSchema>
