import { suggestion } from '../nearestWord.ts'
import type { Problem } from '../notes.ts'
import type { LayerPart } from '../schema/readLayers.ts'

/** Copper layers by name and number, known even where the stackup has other faults. */
export interface LayerDirectory {
  /** Copper layers, top to bottom. */
  readonly names: readonly string[]
  /** The layer's number, or what is wrong with the reference. */
  find(reference: string | number): number | Problem
}

/** A name goes before a number: a layer called "3" is meant by 3. */
export function layerDirectory(layers: readonly LayerPart[]): LayerDirectory {
  const copper = layers.filter((layer) => layer.kind === 'copper')
  const names = copper.map((layer, index) => layer.name ?? `copper layer ${index + 1}`)
  const range = names.length === 0 ? 'no copper' : `${names[0] ?? ''} … ${names.at(-1) ?? ''}`
  return {
    names,
    find(reference) {
      const named = names.indexOf(String(reference))
      if (named >= 0) return named + 1
      const number = Number(reference)
      if (Number.isInteger(number) && number >= 1 && number <= names.length) return number
      // L1 for L13 would be no help.
      const near = String(reference).length > 3 ? suggestion(String(reference), names) : ''
      return {
        found: `layer ${reference}`,
        allowed: `${range}, or a number from 1 to ${names.length}`,
        message: `Unknown layer ${reference}; the stackup has ${range}${near || '.'}`,
      }
    },
  }
}
