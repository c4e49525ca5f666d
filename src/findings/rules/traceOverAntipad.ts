import { landLayerOf } from '../../board/lookup.ts'
import type { Package } from '../../board/packages.ts'
import type { ViaType } from '../../board/vias.ts'
import type { LineEntry } from '../../impedance/lineTable.ts'
import { groupBy } from '../../numerics/groupBy.ts'
import type { Metres } from '../../units/quantity.ts'
import { assumedOfVia, boardIndex, onLayer, planesPassed, viasInField } from '../boardIndex.ts'
import { channelsOf, type Channel } from '../channels.ts'
import type { FindingContext } from '../context.ts'
import { drawnDown, isBelow } from '../drawn.ts'
import { byPackageAndSeverity, folded, type Weighed } from '../folded.ts'
import type { Finding, Remedy } from '../finding.ts'
import { fraction, layer, metres } from '../measure.ts'
import { otherLayers } from '../tightChannels.ts'

/**
 * Traces in a channel that reach over the antipads in their reference planes. In the open a trace keeps five
 * times its height from a void; between the vias of a package that cannot be, so this is a note, and a warning
 * where an antipad takes the plane from under the whole width of a trace.
 */
export function traceOverAntipad(context: FindingContext): Finding[] {
  const index = boardIndex(context)
  const lines = usedNeckLines(context)
  const over = channelsOf(context).flatMap((channel) => {
    const pack = index.packages.get(channel.package)
    const entry = lines.get(`${channel.package}|${channel.fit.netClass}|${channel.fit.layer}`)
    if (pack === undefined || entry === undefined || channel.fit.traces === 0) return []
    const overlap = overlapOf(context, pack, channel, entry)
    return overlap === null ? [] : [overlap]
  })
  const groups = groupBy(over, ({ channel }) => `${channel.package}|${channel.fit.netClass}`)
  const found = [...groups.values()].flatMap((group) => {
    const [worst] = [...group].sort(
      (a, b) => b.overlap / b.channel.fit.width - a.overlap / a.channel.fit.width,
    )
    if (worst === undefined) return []
    const finding = overAntipad(worst, group)
    const { fit } = worst.channel
    const remedies = (): Remedy[] => [...smallerAntipad(context, worst), ...narrowerTraces(context, worst)]
    return [{ finding, remedies, weight: worst.overlap / fit.width, name: `class ${fit.netClass}` }]
  })
  return folded(found, byPackageAndSeverity)
}

interface Overlap {
  readonly channel: Channel
  readonly via: ViaType
  readonly planeLayer: number
  /** Traces that share the channel. */
  readonly traces: number
  /** From the centre of the via to the near edge of the outermost trace. */
  readonly nearEdge: Metres
  /** How far that trace reaches over the antipad. */
  readonly overlap: Metres
}

function usedNeckLines(context: FindingContext): Map<string, LineEntry> {
  return new Map(
    context.lines.entries
      .filter((entry) => entry.stretch === 'neck' && entry.used && entry.impedance !== null)
      .map((entry) => [`${entry.package ?? ''}|${entry.netClass}|${entry.layer}`, entry]),
  )
}

function overlapOf(
  context: FindingContext,
  pack: Package,
  channel: Channel,
  entry: LineEntry,
): Overlap | null {
  // Beside the lands of a dog-bone package stand no vias.
  if (channel.fit.layer === landLayerOf(context.board, pack) && pack.viaPlacement === 'dog-bone') return null
  const section = entry.impedance?.section
  const planes = [section?.planeBelow.layer, section?.planeAbove?.layer]
  const pierced = viasInField(context, pack).flatMap((via) =>
    planesPassed(context.board, via)
      .filter(({ number }) => planes.includes(number))
      .map(({ number }) => ({ via, planeLayer: number })),
  )
  const [largest] = pierced.sort((a, b) => b.via.antipadDiameter - a.via.antipadDiameter)
  if (largest === undefined) return null
  const traces = tracesIn(context, channel)
  const { span, width, traceGap } = channel.fit
  const nearEdge = (span - traces * width - (traces - 1) * traceGap) / 2
  const overlap = largest.via.antipadDiameter / 2 - nearEdge
  if (overlap <= context.board.analysis.comparisonTolerance) return null
  return { channel, ...largest, traces, nearEdge, overlap }
}

/** As many as the plan puts into a channel of the layer, or as fit where there is no plan for it. */
function tracesIn(context: FindingContext, { package: pack, fit }: Channel): number {
  const escape = context.escapes.find((each) => each.package === pack)
  const plan = escape?.plans.find((each) => each.technology === escape.chosen)
  const planned = plan?.layers.find((each) => each.layer === fit.layer)?.tracesPerChannel ?? 0
  return planned > 0 ? Math.min(planned, fit.traces) : fit.traces
}

function overAntipad(worst: Overlap, group: readonly Overlap[]): Weighed['finding'] {
  const { channel, via, traces, nearEdge, overlap } = worst
  const { fit } = channel
  // A trace alone in its channel loses plane on both sides.
  const uncovered = Math.min(1, ((traces === 1 ? 2 : 1) * overlap) / fit.width)
  const radius = via.antipadDiameter / 2
  const chord = 2 * Math.sqrt(Math.max(0, radius * radius - nearEdge * nearEdge))
  return {
    code: 'trace-over-antipad',
    severity: uncovered === 1 ? 'warning' : 'note',
    subject: {
      kind: 'class',
      name: fit.netClass,
      layer: fit.layer,
      package: channel.package,
      alike: otherLayers(
        group.map((each) => each.channel),
        fit.layer,
      ),
    },
    measured: metres('trace edge beyond the edge of the antipad', overlap),
    limit: metres('at most', 0),
    limitSource:
      'solid plane, as the impedance formulas assume; in the open 5 heights to a void: Altera, PCB design guidelines for Agilex 3 (853726)',
    details: [
      fraction('share of the width without plane', uncovered),
      metres('length without plane at each via', chord),
      layer('plane', worst.planeLayer),
      metres('antipad diameter', via.antipadDiameter),
      metres('between centres', fit.span),
      metres('web of plane between antipads', fit.span - via.antipadDiameter),
      metres('trace width', fit.width),
    ],
    assumed: assumedOfVia(via, 'antipad'),
  }
}

/** To the edge of the trace, if the drill then keeps its distance from the plane. */
function smallerAntipad({ board }: FindingContext, { via, nearEdge }: Overlap): Remedy[] {
  const antipad = drawnDown(board, 2 * nearEdge)
  const bore = Math.max(via.drilledDiameter, via.backdrill?.diameter ?? 0)
  if (isBelow((antipad - bore) / 2, board.fabrication.drillToCopper)) return []
  return [
    {
      action: 'make the antipad',
      value: metres('antipad diameter', antipad),
      result: metres('trace edge beyond the edge of the antipad', antipad / 2 - nearEdge),
    },
  ]
}

function narrowerTraces({ board }: FindingContext, { channel, via, traces }: Overlap): Remedy[] {
  const { span, traceGap, layer: number } = channel.fit
  const width = drawnDown(board, (span - via.antipadDiameter - (traces - 1) * traceGap) / traces)
  if (isBelow(width, onLayer(board, board.fabrication.traceWidth, number))) return []
  return [
    {
      action: 'narrow the neck to',
      value: metres('trace width', width),
      result: metres(
        'trace edge beyond the edge of the antipad',
        via.antipadDiameter / 2 - (span - traces * width - (traces - 1) * traceGap) / 2,
      ),
    },
  ]
}
