import { z } from 'zod'
import type { Leaves } from './leaves.ts'
import { layerReference, text } from './plainLeaves.ts'

function build(leaf: Leaves) {
  return z.strictObject({
    match: text.optional(),
    name: text.optional(),
    class: text.optional(),
    group: text.optional(),
    partner: text.optional(),
    length: leaf.sizeOrZero.optional(),
    package_delay: leaf.timeOrZero.optional(),
    exit_layer: layerReference.optional(),
  })
}

export type NetSchema = ReturnType<typeof build>
export const netSchema = (leaf: Leaves): NetSchema => build(leaf)
/** One entry of `nets`, in SI: what it says applies to every net it names. */
export type NetText = z.output<NetSchema>
