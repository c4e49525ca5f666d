import type { Notes } from '../notes.ts'
import type { LayerPart } from '../schema/readLayers.ts'

/**
 * Finds stackups that are none: two sheets of copper or of core with nothing between, mask inside,
 * no copper outside, no plane, a name twice. Works on kinds and names alone, so that it also speaks
 * where a layer has other faults. True when the sequence can be built on.
 */
export function checkStructure(layers: readonly LayerPart[], notes: Notes): boolean {
  const before = notes.issues.length
  checkMasks(layers, notes)
  checkSequence(
    layers.filter((layer) => layer.kind !== 'mask'),
    notes,
  )
  checkDielectrics(
    layers.filter((layer) => layer.kind !== 'mask'),
    notes,
  )
  checkNames(layers, notes)
  checkPlane(layers, notes)
  return notes.issues.length === before
}

function checkMasks(layers: readonly LayerPart[], notes: Notes): void {
  layers.forEach((layer, index) => {
    if (layer.kind !== 'mask' || index === 0 || index === layers.length - 1) return
    notes.error(layer.path, {
      found: 'mask inside the stackup',
      allowed: 'mask as the first or the last layer',
      message: `Layer ${index + 1}, ${labelOf(layer)}, is mask inside the stackup; mask lies only on the very top and bottom.`,
    })
  })
}

function checkSequence(layers: readonly LayerPart[], notes: Notes): void {
  for (const [end, layer] of [
    ['top', layers[0]],
    ['bottom', layers.at(-1)],
  ] as const) {
    if (layer === undefined || layer.kind === 'copper' || layer.kind === null) continue
    notes.error(layer.path, {
      found: `${labelOf(layer)} outside`,
      allowed: 'copper, or mask and then copper',
      message: `The stackup has no copper on its ${end}: ${labelOf(layer)} lies outside; it must begin and end with copper, or mask and copper.`,
    })
  }
  layers.forEach((layer, index) => {
    const next = layers[index + 1]
    if (layer.kind !== 'copper' || next?.kind !== 'copper') return
    notes.error(next.path, {
      found: 'two copper layers that touch',
      allowed: 'core or prepreg between copper layers',
      message: `Copper ${labelOf(layer)} and ${labelOf(next)} have no dielectric between them.`,
    })
  })
  if (layers.filter((layer) => layer.kind === 'copper').length >= 2) return
  notes.error(['stackup', 'layers'], { found: 'fewer than two copper layers', allowed: 'at least two' })
}

function checkDielectrics(layers: readonly LayerPart[], notes: Notes): void {
  layers.forEach((layer, index) => {
    const [above, below] = [layers[index - 1], layers[index + 1]]
    if (layer.kind === 'copper' && above?.kind === 'core' && below?.kind === 'core') {
      notes.error(layer.path, {
        found: 'core on both sides',
        allowed: 'prepreg on at least one side',
        message: `Copper ${labelOf(layer)} has core above and below; cores are joined by prepreg, so one of ${labelOf(above)} and ${labelOf(below)} is prepreg.`,
      })
    }
    if (below !== undefined && isDielectric(layer) && isDielectric(below)) {
      notes.error(below.path, {
        found: 'two dielectrics that touch',
        allowed: 'copper between them, or one dielectric; several sheets of prepreg are its plies',
        message: `There is no copper between ${labelOf(layer)} and ${labelOf(below)}; describe them as one dielectric, or name the copper between.`,
      })
    }
  })
}

function isDielectric({ kind }: LayerPart): boolean {
  return kind === 'core' || kind === 'prepreg'
}

function checkNames(layers: readonly LayerPart[], notes: Notes): void {
  const seen = new Set<string>()
  for (const layer of layers) {
    if (layer.name === null) continue
    if (seen.has(layer.name)) {
      notes.error([...layer.path, layer.kind ?? ''], {
        found: `the name "${layer.name}" for a second layer`,
        allowed: 'a name of its own for each layer',
        message: `Two layers of the stackup are called "${layer.name}".`,
      })
    }
    seen.add(layer.name)
  }
}

function checkPlane(layers: readonly LayerPart[], notes: Notes): void {
  const copper = layers.filter((layer) => layer.kind === 'copper')
  const maybe = copper.some(({ text }) => text === null || (text.kind === 'copper' && isPlane(text.text)))
  if (maybe || copper.length === 0) return
  notes.error(['stackup', 'layers'], {
    found: 'a stackup without a plane',
    allowed: 'at least one copper layer with role: plane or mixed',
    message:
      'The stackup has no plane, so no trace has a return path; give at least one copper layer role: plane.',
  })
}

function isPlane(copper: { role?: string | undefined; net?: string | undefined }): boolean {
  return copper.role === undefined ? copper.net !== undefined : copper.role !== 'signal'
}

function labelOf(layer: LayerPart): string {
  return layer.name ?? `layer ${Number(layer.path.at(-1)) + 1}`
}
