import { formatLength } from '../../units/format.ts'
import type { Metres } from '../../units/quantity.ts'
import type { Path } from '../document/path.ts'
import type { CapabilityClass } from '../fabrication/capabilityClasses.ts'
import type { Notes } from '../notes.ts'
import type { ViaText } from '../schema/viaSchema.ts'
import type { LayerDirectory } from '../stackup/layerDirectory.ts'

/** What the pads of a via depend on. */
export interface PadPlace {
  readonly path: Path
  readonly firstLayer: number
  readonly lastLayer: number
  readonly drilled: Metres
  readonly layers: LayerDirectory
  readonly capability: CapabilityClass
}

/**
 * Pad diameter on each layer of the span: of the layer by name, else outer or inner, else what the
 * capability class puts over the drill. A pad no larger than its hole is refused.
 */
export function viaPads(text: ViaText, place: PadPlace, notes: Notes): Metres[] {
  const { path, firstLayer, lastLayer, layers } = place
  const byKey = padsByKey(text, place, notes)
  const fallback = { value: null as Metres | null }
  const count = layers.names.length
  const pads = Array.from({ length: lastLayer - firstLayer + 1 }, (_, index) => {
    const number = firstLayer + index
    const outer = number === 1 || number === count
    const stated = byKey.get(number) ?? byKey.get(outer ? 'outer' : 'inner')
    fallback.value ??= stated === undefined ? assumedPad(text, place, notes) : null
    return stated ?? fallback.value ?? 0
  })
  const small = pads.findIndex((pad) => !(pad > place.drilled))
  if (small >= 0) {
    const print = (value: Metres): string => formatLength(value, notes.context.displayUnit)
    const [pad, layer] = [print(pads[small] ?? 0), layers.names[firstLayer + small - 1] ?? '']
    notes.error([...path, 'pad'], {
      found: `${pad} on ${layer}`,
      allowed: `more than the drilled hole, ${print(place.drilled)}`,
      message: `The pad of via "${text.name}" on ${layer}, ${pad}, is not larger than its drilled hole, ${print(place.drilled)}.`,
    })
  }
  return pads
}

type PadKey = number | 'outer' | 'inner'

/** Stated pads by layer number, outer or inner. */
function padsByKey(text: ViaText, place: PadPlace, notes: Notes): Map<PadKey, Metres> {
  if (text.pad === undefined) return new Map()
  if (typeof text.pad === 'number') {
    return new Map<PadKey, Metres>([
      ['outer', text.pad],
      ['inner', text.pad],
    ])
  }
  const found = new Map<PadKey, Metres>()
  for (const [key, pad] of Object.entries(text.pad)) {
    const layer = key === 'outer' || key === 'inner' ? key : place.layers.find(key)
    if (typeof layer === 'object') {
      notes.error([...place.path, 'pad', key], {
        ...layer,
        allowed: `outer, inner, or a layer: ${layer.allowed}`,
      })
    } else if (typeof layer === 'number' && (layer < place.firstLayer || layer > place.lastLayer)) {
      notes.warn([...place.path, 'pad', key], {
        found: `a pad on ${key}`,
        allowed: 'layers that the via reaches',
        message: `Via "${text.name}" has a pad on ${key}, which it does not reach.`,
      })
    } else {
      found.set(layer, pad)
    }
  }
  return found
}

function assumedPad(text: ViaText, { path, drilled, capability }: PadPlace, notes: Notes): Metres {
  const key = text.kind === 'microvia' ? 'microvia_pad_over_drill' : 'pad_over_drill'
  const excess =
    text.kind === 'microvia' ? capability.holes.microviaPadOverDrill : capability.holes.padOverDrill
  const pad = drilled + excess
  const source = `drilled diameter plus what class ${capability.name} needs: ${capability.sources[key] ?? capability.source}`
  notes.assume(
    [...path, 'pad'],
    `pad of via "${text.name}"`,
    formatLength(pad, notes.context.displayUnit),
    source,
  )
  return pad
}
