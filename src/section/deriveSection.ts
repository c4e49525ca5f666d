import type { CopperLayer, MaskLayer, Stackup } from '../board/stackup.ts'
import type { Metres } from '../units/quantity.ts'
import type { CrossSection, LineRequest, MaskCoat, TraceShape } from './crossSection.ts'
import { lookFrom, type View } from './lookFrom.ts'

/**
 * The cross-section that a trace of the given foot width has on its layer of the stackup.
 *
 * Lengths in metres. The nearest plane above and below are its references; signal and mixed layers in
 * between count as empty and are named in `emptyLayers`, because nothing promises copper there. The
 * slab of an empty layer is filled by the dielectric that its body would stand in.
 *
 * Throws RangeError, with a message fit for a user, when the layer does not exist or is a plane, when
 * a size is not positive, when the side walls would meet, or when no plane is in sight.
 */
export function deriveSection(stackup: Stackup, request: LineRequest): CrossSection {
  const layer = signalLayer(stackup, request.layer)
  checkSizes(request)
  if (request.broadsideLayer !== null)
    return broadsideSection(stackup, layer, request, request.broadsideLayer)
  const up = lookFrom(stackup, layer, 'above')
  const down = lookFrom(stackup, layer, 'below')
  const upsideDown = isUpsideDown(layer, up, down)
  const [lower, upper] = upsideDown ? [up, down] : [down, up]
  if (lower.plane === null) {
    throw new RangeError(`layer ${layer.name} has no plane above or below it to carry the return current`)
  }
  return {
    layer: layer.number,
    layerName: layer.name,
    upsideDown,
    structure: upper.plane === null ? 'microstrip' : 'stripline',
    arrangement: request.gap === null ? 'single' : 'edge pair',
    trace: traceShape(layer, request.width, upsideDown),
    gap: request.gap,
    broadside: null,
    coplanarGap: request.coplanarGap,
    below: lower.sheets,
    above: upper.sheets,
    mask: upper.plane === null ? coat(upper.mask) : null,
    planeBelow: lower.plane,
    planeAbove: upper.plane,
    emptyLayers: [...up.emptyLayers, ...down.emptyLayers],
    assumed: assumptions([layer], [up, down]),
  }
}

/** Two traces face to face on neighbouring signal layers between two planes, both of the requested width. */
function broadsideSection(
  stackup: Stackup,
  layer: CopperLayer,
  request: LineRequest,
  partnerNumber: number,
): CrossSection {
  const partner = signalLayer(stackup, partnerNumber)
  if (partner === layer) throw new RangeError(`a broadside pair needs two layers, got ${layer.name} twice`)
  const [first, second] = layer.number < partner.number ? [layer, partner] : [partner, layer]
  const up = lookFrom(stackup, first, 'above')
  const down = lookFrom(stackup, second, 'below')
  const between = lookFrom(stackup, first, 'below', second)
  if (up.plane === null || down.plane === null) {
    throw new RangeError(
      `a broadside pair on ${first.name} and ${second.name} needs a plane above and a plane below`,
    )
  }
  if (between.plane !== null) {
    throw new RangeError(`plane ${between.plane.layerName} stands between ${first.name} and ${second.name}`)
  }
  return {
    layer: layer.number,
    layerName: layer.name,
    upsideDown: false,
    structure: 'stripline',
    arrangement: 'broadside pair',
    trace: traceShape(layer, request.width, false),
    gap: null,
    broadside: { layer: partner.number, sheets: between.sheets },
    coplanarGap: request.coplanarGap,
    below: down.sheets,
    above: up.sheets,
    mask: null,
    planeBelow: down.plane,
    planeAbove: up.plane,
    emptyLayers: [...up.emptyLayers, ...between.emptyLayers, ...down.emptyLayers],
    assumed: assumptions([layer, partner], [up, between, down]),
  }
}

function signalLayer(stackup: Stackup, number: number): CopperLayer {
  const layer = stackup.copper[number - 1]
  if (layer === undefined) {
    throw new RangeError(`there is no copper layer ${number}; the stackup has 1 to ${stackup.copper.length}`)
  }
  if (layer.role === 'plane')
    throw new RangeError(`layer ${layer.name} is a plane (${layer.planeNet ?? 'no net'})`)
  return layer
}

function checkSizes(request: LineRequest): void {
  if (!(request.width > 0)) throw new RangeError(`trace width must be above 0, got ${request.width} m`)
  if (request.gap !== null && !(request.gap > 0))
    throw new RangeError(`gap must be above 0, got ${request.gap} m`)
  if (request.coplanarGap !== null && !(request.coplanarGap > 0)) {
    throw new RangeError(`gap to coplanar ground must be above 0, got ${request.coplanarGap} m`)
  }
  if (request.gap !== null && request.broadsideLayer !== null) {
    throw new RangeError(
      'a pair is coupled edge to edge or broadside, not both: leave out the gap or the second layer',
    )
  }
}

/** With one plane it goes below; with two, the foot of the trace faces the lower one. */
function isUpsideDown(layer: CopperLayer, up: View, down: View): boolean {
  if (down.plane === null) return true
  if (up.plane === null) return false
  return layer.bondedTo === 'above'
}

function traceShape(layer: CopperLayer, width: Metres, upsideDown: boolean): TraceShape {
  const topWidth = width - 2 * layer.sidewallSlope * layer.thickness
  if (!(topWidth > 0)) {
    throw new RangeError(
      `a trace ${width} m wide at the foot would etch away: its side walls meet inside the ${layer.thickness} m of copper on ${layer.name}`,
    )
  }
  const footBelow = (layer.bondedTo === 'below') !== upsideDown
  return {
    width,
    topWidth,
    thickness: layer.thickness,
    foot: footBelow ? 'below' : 'above',
    roughness: layer.roughness,
    resistivity: layer.resistivity,
  }
}

function coat(mask: MaskLayer | null): MaskCoat | null {
  if (mask === null) return null
  return {
    overLaminate: mask.thicknessOverLaminate,
    overTrace: mask.thicknessOverTrace,
    permittivity: mask.permittivity,
  }
}

/** All of the trace's own layer and of the dielectrics; of an empty layer only how thick its slab is. */
function assumptions(layers: readonly CopperLayer[], views: readonly View[]): CrossSection['assumed'] {
  const passed = new Set(views.flatMap((view) => view.passed))
  const ofPassed = [...passed].flatMap((part) =>
    part.kind === 'copper' ? part.assumed.filter(({ path }) => SLAB_FIELDS.test(path)) : part.assumed,
  )
  return [...layers.flatMap((layer) => layer.assumed), ...ofPassed]
}

const SLAB_FIELDS = /\.(thickness|thickness_tolerance|foil|plating)$/
