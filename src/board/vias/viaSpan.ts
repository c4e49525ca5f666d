import type { Path } from '../document/path.ts'
import type { Notes } from '../notes.ts'
import type { ViaText } from '../schema/viaSchema.ts'
import type { LayerDirectory } from '../stackup/layerDirectory.ts'

export interface LayerSpan {
  readonly firstLayer: number
  readonly lastLayer: number
}

/** First and last layer of a via, checked against its kind. Null with an error noted. */
export function viaSpan(text: ViaText, path: Path, layers: LayerDirectory, notes: Notes): LayerSpan | null {
  const count = layers.names.length
  if (text.layers === undefined) {
    if (text.kind === 'through') return count < 2 ? null : { firstLayer: 1, lastLayer: count }
    notes.error([...path, 'layers'], {
      found: 'missing',
      allowed: 'the two layers it joins, such as [L1, L2]',
      message: `Via "${text.name}" is ${text.kind} and must say from which layer to which it goes.`,
    })
    return null
  }
  const numbers = text.layers.map((reference, index) => {
    const found = layers.find(reference)
    if (typeof found === 'number') return found
    notes.error([...path, 'layers', index], found)
    return null
  })
  const [one = null, other = null] = numbers
  if (one === null || other === null) return null
  const span = { firstLayer: Math.min(one, other), lastLayer: Math.max(one, other) }
  const fault = kindFault(text, span, count)
  if (fault === null) return span
  const found = `${layers.names[span.firstLayer - 1] ?? ''} to ${layers.names[span.lastLayer - 1] ?? ''}`
  notes.error([...path, 'layers'], {
    found,
    allowed: fault,
    message: `Via "${text.name}" is called ${text.kind} but goes from ${found}; ${fault}.`,
  })
  return null
}

function kindFault({ kind, arrangement }: ViaText, span: LayerSpan, count: number): string | null {
  const { firstLayer, lastLayer } = span
  if (firstLayer === lastLayer) return 'a via joins two different layers'
  if (kind === 'microvia') {
    return lastLayer - firstLayer <= 2 || arrangement !== undefined ? null : LADDER_RULE
  }
  const outerEnds = [firstLayer === 1, lastLayer === count].filter((outer) => outer).length
  return outerEnds === OUTER_ENDS[kind].count ? null : OUTER_ENDS[kind].rule
}

const OUTER_ENDS = {
  through: { count: 2, rule: 'a through via goes from the top layer to the bottom layer' },
  blind: { count: 1, rule: 'a blind via has one end, and only one, on an outer layer' },
  buried: { count: 0, rule: 'a buried via ends on inner layers' },
}

const LADDER_RULE =
  'one laser hole goes through two dielectrics at most; several on each other say arrangement: stacked or staggered'
