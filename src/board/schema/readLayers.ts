import { suggestion } from '../nearestWord.ts'
import { describe } from './explain.ts'
import { readPart, type Part, type SectionNotes } from './readPart.ts'
import {
  LAYER_KINDS,
  type CopperText,
  type CoreText,
  type LayerKind,
  type MaskText,
  type PrepregText,
  type StackupSchema,
} from './stackupSchema.ts'

/** A layer of the stackup as described, in SI, tagged with its kind. */
export type LayerText =
  | { readonly kind: 'mask'; readonly text: MaskText }
  | { readonly kind: 'copper'; readonly text: CopperText }
  | { readonly kind: 'core'; readonly text: CoreText }
  | { readonly kind: 'prepreg'; readonly text: PrepregText }

/** A layer with the kind and name that can be told even when its values cannot be used. */
export interface LayerPart extends Part<LayerText> {
  readonly kind: LayerKind | null
}

/** Reads each layer by the schema of its kind: the key mask, copper, core or prepreg says which. */
export function readLayers(
  schema: StackupSchema,
  items: readonly unknown[],
  notes: SectionNotes,
): LayerPart[] {
  return items.map((item, index) => {
    const path = ['stackup', 'layers', index]
    const keys = typeof item === 'object' && item !== null ? Object.keys(item) : []
    const kind = LAYER_KINDS.find((name) => keys.includes(name)) ?? null
    if (kind === null) {
      const near = keys.map((key) => suggestion(key, LAYER_KINDS)).find((text) => text !== '') ?? ''
      const allowed = 'a layer with one of the keys mask, copper, core, prepreg, whose value is its name'
      notes.error(path, {
        found: describe(item),
        allowed,
        message: `Layer ${index + 1} of the stackup has none of the keys mask, copper, core, prepreg${near || '.'}`,
      })
      return { path, kind, name: null, text: null }
    }
    const name = (item as Record<string, unknown>)[kind]
    return {
      path,
      kind,
      name: typeof name === 'string' ? name.trim() : null,
      text: readLayer(schema, kind, item, index, notes),
    }
  })
}

function readLayer(
  schema: StackupSchema,
  kind: LayerKind,
  item: unknown,
  index: number,
  notes: SectionNotes,
): LayerText | null {
  const path = ['stackup', 'layers', index]
  switch (kind) {
    case 'mask':
      return tagged(kind, readPart(schema.mask, item, path, notes))
    case 'copper':
      return tagged(kind, readPart(schema.copper, item, path, notes))
    case 'core':
      return tagged(kind, readPart(schema.core, item, path, notes))
    case 'prepreg':
      return tagged(kind, readPart(schema.prepreg, item, path, notes))
  }
}

function tagged<K extends LayerKind, T>(kind: K, text: T | null): { kind: K; text: T } | null {
  return text === null ? null : { kind, text }
}
