import { COPPER_RESISTIVITY } from '../../units/constants.ts'
import { formatNumber, formatPercent } from '../../units/format.ts'
import type { OhmMetres } from '../../units/quantity.ts'
import { Notes, type Completed, type ReadingContext } from '../notes.ts'
import type { LayerPart, LayerText } from '../schema/readLayers.ts'
import type { Sections } from '../schema/readSections.ts'
import type { CopperLayer, Stackup, StackupLayer } from '../stackup.ts'
import { checkStructure } from './checkStructure.ts'
import { completeCopper } from './completeCopper.ts'
import { completeDielectric, type DielectricText } from './completeDielectric.ts'
import { completeMask } from './completeMask.ts'
import { ASSUMED_BOARD_TOLERANCE } from './laminates.ts'

/**
 * Stackup from its layers: copper first, since what a prepreg becomes in pressing depends on the
 * copper that stands in it. Null as soon as a layer is unusable or the sequence is none.
 */
export function completeStackup(
  { stackup: header, layers }: Pick<Sections, 'stackup' | 'layers'>,
  context: ReadingContext,
): Completed<Stackup | null> {
  const notes = new Notes(context)
  const sound = checkStructure(layers, notes)
  const copper = completeCoppers(layers, header?.copper_resistivity ?? COPPER_RESISTIVITY, notes)
  const whole = sound && copper.size === layers.filter((layer) => layer.kind === 'copper').length
  const completed = whole ? layers.map((_, index) => completeLayer(layers, index, copper, notes)) : []
  const usable = completed.filter((layer) => layer !== null)
  if (header === null || !whole || usable.length < layers.length) return notes.complete<Stackup>(null)
  const own = new Notes(context)
  if (header.thickness_tolerance === undefined) {
    const { value, source } = ASSUMED_BOARD_TOLERANCE
    own.assume(
      ['stackup', 'thickness_tolerance'],
      'tolerance of the board thickness',
      `± ${formatPercent(value, 0)}`,
      source,
    )
  }
  if (header.copper_resistivity === undefined) {
    const shown = `${formatNumber(COPPER_RESISTIVITY, 5)} ohm m`
    const path = ['stackup', 'copper_resistivity']
    own.assume(path, 'resistivity of all copper', shown, 'annealed copper at 20 °C, IEC 60028 (1925)')
  }
  notes.include(own.keep(null))
  return notes.complete({
    layers: usable,
    copper: usable.filter((layer) => layer.kind === 'copper'),
    computedThickness: usable.reduce((sum, layer) => sum + (layer.kind === 'mask' ? 0 : layer.thickness), 0),
    statedThickness: header.total_thickness ?? null,
    thicknessTolerance: header.thickness_tolerance ?? ASSUMED_BOARD_TOLERANCE.value,
    assumed: own.assumptions,
  })
}

/** Copper by index in the list of layers. */
function completeCoppers(
  layers: readonly LayerPart[],
  resistivity: OhmMetres,
  notes: Notes,
): Map<number, CopperLayer> {
  const indices = layers.flatMap((layer, index) => (layer.kind === 'copper' ? [index] : []))
  const found = new Map<number, CopperLayer>()
  indices.forEach((index, order) => {
    const part = layers[index]
    if (part?.text?.kind !== 'copper') return
    const place = {
      path: part.path,
      number: order + 1,
      count: indices.length,
      resistivity,
      above: layers[index - 1]?.kind ?? null,
      below: layers[index + 1]?.kind ?? null,
    }
    const copper = notes.include(completeCopper(part.text.text, place, notes.context))
    if (copper !== null) found.set(index, copper)
  })
  return found
}

function completeLayer(
  layers: readonly LayerPart[],
  index: number,
  copper: ReadonlyMap<number, CopperLayer>,
  notes: Notes,
): StackupLayer | null {
  const part = layers[index]
  if (part === undefined || part.text === null) return null
  if (part.text.kind === 'copper') return copper.get(index) ?? null
  if (part.text.kind === 'mask') {
    const side = index === 0 ? 'top' : 'bottom'
    return notes.include(completeMask(part.text.text, side, part.path, notes.context))
  }
  const [above, below] = [copper.get(index - 1), copper.get(index + 1)]
  if (above === undefined || below === undefined) return null
  return notes.include(
    completeDielectric(dielectricText(part.text), { path: part.path, above, below }, notes.context),
  )
}

function dielectricText(layer: Extract<LayerText, { kind: 'core' | 'prepreg' }>): DielectricText {
  return layer.kind === 'core'
    ? { type: 'core', name: layer.text.core, text: layer.text }
    : { type: 'prepreg', name: layer.text.prepreg, text: layer.text }
}
