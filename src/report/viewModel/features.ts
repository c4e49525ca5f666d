import type { Board } from '../../board/board.ts'
import type { OuterInner } from '../../board/fabrication.ts'
import type { Package } from '../../board/packages.ts'
import type { Stackup, StackupLayer } from '../../board/stackup.ts'
import type { ViaType } from '../../board/vias.ts'
import type { ChannelFit, ChannelTest } from '../../escape/escape.ts'
import type { Review } from '../../review.ts'
import type { Metres } from '../../units/quantity.ts'
import { chosenPlan, signalLayers } from './context.ts'

/** One thing the fabricator has to make, beside what they state. */
export interface Feature {
  readonly name: string
  readonly where: string
  readonly value: number
  readonly unit: 'm' | 'ratio' | 'count'
  readonly sense: 'at least' | 'at most'
  /** Null where the capability says nothing of it. */
  readonly limit: number | null
  readonly met: boolean
  /** A margin below this is met without room. */
  readonly tight: number
}

type LayerName = (layer: number) => string

/** Everything the breakouts ask of the fabricator: differences of described lengths, nothing estimated. */
export function manufacturedFeatures(review: Review, layerName: LayerName): Feature[] {
  const { board } = review
  return [
    ...traceFeatures(review, layerName),
    ...channelFeatures(review, layerName),
    ...board.packages.flatMap((pack) => packageFeatures(pack, board)),
    ...board.vias.flatMap((via) => viaFeatures(via, board)),
    thinnestDielectric(board),
  ]
}

function atLeast(name: string, where: string, value: Metres, limit: Metres | null, board: Board): Feature {
  const tolerance = board.analysis.comparisonTolerance
  return {
    name,
    where,
    value,
    unit: 'm',
    sense: 'at least',
    limit,
    met: limit === null || value >= limit - tolerance,
    tight: tolerance,
  }
}

function atMost(
  name: string,
  where: string,
  value: number,
  limit: number,
  unit: Feature['unit'] = 'ratio',
): Feature {
  return { name, where, value, unit, sense: 'at most', limit, met: value <= limit, tight: 0 }
}

function isOuter(layer: number, { copper }: Stackup): boolean {
  return layer === 1 || layer === copper.length
}

/** The narrowest trace and the smallest gap of all used lines, outer and inner layers apart. */
function traceFeatures({ board, lines }: Review, layerName: LayerName): Feature[] {
  const used = lines.entries.filter((entry) => entry.used)
  return (['outer', 'inner'] as const).flatMap((side) => {
    const here = used.filter((entry) => isOuter(entry.layer, board.stackup) === (side === 'outer'))
    const smallest = (name: string, of: 'width' | 'gap', limits: OuterInner): Feature[] => {
      const sizes = here.flatMap((entry) => (entry[of] === null ? [] : [{ entry, size: entry[of] }]))
      const [first, ...rest] = sizes
      if (first === undefined) return []
      const least = rest.reduce((low, each) => (each.size < low.size ? each : low), first)
      const where = `${least.entry.netClass}, ${least.entry.stretch === 'neck' ? 'neck' : 'main route'} on ${layerName(least.entry.layer)}`
      return [atLeast(`${name}, ${side} layers`, where, least.size, limits[side], board)]
    }
    return [
      ...smallest('Narrowest trace', 'width', board.fabrication.traceWidth),
      ...smallest('Smallest gap inside a pair', 'gap', board.fabrication.traceGap),
    ]
  })
}

/** Of each clearance rule the smallest distance that any used channel leaves. */
function channelFeatures(review: Review, layerName: LayerName): Feature[] {
  const fits = review.escapes.flatMap((escape) => {
    const plan = chosenPlan(escape)
    const layers = new Set(plan === undefined ? [] : signalLayers(plan))
    return escape.channels
      .filter((fit) => fit.traces > 0 && layers.has(fit.layer))
      .map((fit) => ({ fit, package: escape.package }))
  })
  const rules: readonly ChannelTest['rule'][] = ['trace to pad', 'mask opening to trace', 'drill to copper']
  return rules.flatMap((rule) => {
    const distances = fits.flatMap(({ fit, package: pack }) =>
      fit.tests
        .filter((test) => test.rule === rule)
        .map((test) => ({ fit, pack, test, distance: distanceLeft(fit, test) })),
    )
    const [first, ...rest] = distances
    if (first === undefined) return []
    const least = rest.reduce(
      (low, each) => (each.distance - each.test.clearance < low.distance - low.test.clearance ? each : low),
      first,
    )
    const where = `${least.pack}, channel ${least.fit.direction} on ${layerName(least.fit.layer)}`
    return [atLeast(ruleName(rule), where, least.distance, least.test.clearance, review.board)]
  })
}

/** From the obstacle to the nearest trace when the traces stand in the middle of the channel. */
function distanceLeft({ traces, width, traceGap }: ChannelFit, test: ChannelTest): Metres {
  const taken = traces * width + (traces - 1) * traceGap
  return test.clearance + (test.clear - taken) / 2
}

function ruleName(rule: ChannelTest['rule']): string {
  if (rule === 'trace to pad') return 'Trace to land or via pad'
  return rule === 'mask opening to trace' ? 'Mask opening to trace' : 'Drilled hole to trace'
}

function packageFeatures(pack: Package, board: Board): Feature[] {
  const { fabrication } = board
  const via = board.vias.find((each) => each.name === pack.via)
  const pitch = Math.min(pack.pitch.x, pack.pitch.y)
  const viaPitch = Math.min(pack.viaPitch.x, pack.viaPitch.y)
  return [
    atLeast('Mask web between openings', pack.name, pitch - pack.maskOpening, fabrication.maskWeb, board),
    ...(via === undefined
      ? []
      : [
          atLeast(
            'Hole wall to hole wall',
            `${pack.name}, ${via.name}`,
            viaPitch - via.drilledDiameter,
            fabrication.holeWallToHoleWall,
            board,
          ),
          atLeast(
            'Plane web between antipads',
            `${pack.name}, ${via.name}`,
            viaPitch - via.antipadDiameter,
            fabrication.traceWidth.inner,
            board,
          ),
        ]),
  ]
}

function viaFeatures(via: ViaType, board: Board): Feature[] {
  const { annularRing, aspectRatio, maxStackedMicrovias } = board.fabrication
  const rings = via.padDiameters.map((pad, index) => ({
    pad,
    outer: isOuter(via.firstLayer + index, board.stackup),
  }))
  const narrowest = (outer: boolean): Metres[] => {
    const pads = rings.filter((ring) => ring.outer === outer).map((ring) => ring.pad)
    return pads.length === 0 ? [] : [Math.min(...pads)]
  }
  const stacked = via.lastLayer - via.firstLayer
  return [
    ...narrowest(true).map((pad) =>
      atLeast(
        `Annular ring, external, IPC class ${annularRing.ipcClass}`,
        via.name,
        (pad - via.finishedDiameter) / 2,
        annularRing.external,
        board,
      ),
    ),
    ...narrowest(false).map((pad) =>
      atLeast(
        `Annular ring, internal, IPC class ${annularRing.ipcClass}`,
        via.name,
        (pad - via.drilledDiameter) / 2,
        annularRing.internal,
        board,
      ),
    ),
    atMost(
      'Aspect ratio, depth over drilled diameter',
      via.name,
      holeDepth(via, board.stackup) / via.drilledDiameter,
      via.kind === 'microvia' ? aspectRatio.microvia : aspectRatio.drilled,
    ),
    ...(via.kind === 'microvia' && via.arrangement === 'stacked'
      ? [atMost('Microvias stacked', via.name, stacked, maxStackedMicrovias, 'count')]
      : []),
  ]
}

/**
 * Deepest of the holes that a via is made of, from the face it is drilled through to where it ends. A laser stops
 * on its target; a drill goes through the last layer too. Stacked and staggered microvias are one hole a step.
 */
function holeDepth(via: ViaType, stackup: Stackup): Metres {
  const step = via.kind === 'microvia' && via.arrangement !== null ? 1 : via.lastLayer - via.firstLayer
  const holes = Array.from({ length: (via.lastLayer - via.firstLayer) / step }, (_, index) => {
    const upper = via.firstLayer + index * step
    const full = depthBetween(upper, upper + step, stackup)
    if (via.kind !== 'microvia') return full
    const fromAbove = upper + step / 2 < (stackup.copper.length + 1) / 2
    const target = fromAbove ? upper + step : upper
    return full - depthBetween(target, target, stackup)
  })
  return Math.max(...holes)
}

/** From the upper face of one copper layer to the lower face of another; plating comes after the drill. */
function depthBetween(upper: number, lower: number, { layers }: Stackup): Metres {
  const place = (number: number): number =>
    layers.findIndex((layer) => layer.kind === 'copper' && layer.number === number)
  return layers.slice(place(upper), place(lower) + 1).reduce((sum, layer) => sum + drilledThickness(layer), 0)
}

function drilledThickness(layer: StackupLayer): Metres {
  if (layer.kind === 'mask') return 0
  return layer.kind === 'copper' ? Math.max(0, layer.thickness - (layer.plating ?? 0)) : layer.thickness
}

function thinnestDielectric(board: Board): Feature {
  const sheets = board.stackup.layers.flatMap((layer) => (layer.kind === 'dielectric' ? [layer] : []))
  const thinnest = sheets.reduce<(typeof sheets)[number] | null>(
    (low, each) => (low === null || each.thickness < low.thickness ? each : low),
    null,
  )
  return atLeast(
    'Thinnest dielectric, pressed',
    thinnest?.name ?? 'none',
    thinnest?.thickness ?? 0,
    board.fabrication.minDielectric,
    board,
  )
}
