import type { Package } from '../../board/packages.ts'
import type { ViaType } from '../../board/vias.ts'
import { assumedLimits, assumedOfVia, planesPassed, viasInField } from '../boardIndex.ts'
import type { FindingContext } from '../context.ts'
import { drawnDown, isBelow } from '../drawn.ts'
import type { Finding, Remedy } from '../finding.ts'
import { metres } from '../measure.ts'
import { drillIsDeepEnough } from '../viaChecks.ts'

/**
 * Antipads of neighbouring vias that leave too little plane between them. The smallest web that can be etched
 * is taken as the narrowest inner trace. Below it a warning; if the antipads touch, which cuts the plane under
 * the channel, an error.
 */
export function antipadsMerge(context: FindingContext): Finding[] {
  return context.board.packages.flatMap((pack) => {
    const vias = viasInField(context, pack).filter((via) => planesPassed(context.board, via).length > 0)
    const [widest] = vias.sort((a, b) => b.antipadDiameter - a.antipadDiameter)
    return widest === undefined ? [] : judge(context, pack, widest)
  })
}

function judge(context: FindingContext, pack: Package, via: ViaType): Finding[] {
  const { fabrication } = context.board
  const pitch = Math.min(pack.viaPitch.x, pack.viaPitch.y)
  const web = pitch - via.antipadDiameter
  const least = fabrication.traceWidth.inner
  if (!isBelow(web, least)) return []
  return [
    {
      code: 'antipads-merge',
      severity: web <= context.board.analysis.comparisonTolerance ? 'error' : 'warning',
      subject: { kind: 'package', name: pack.name, layer: null, package: pack.name, alike: [] },
      measured: metres('web of plane between antipads', web),
      limit: metres('at least', least),
      limitSource: `narrowest inner trace of ${fabrication.source}, as a web is etched like one`,
      remedies: [...smallerAntipad(context, via, pitch), ...smallerHole(context, via, pitch)],
      details: [
        metres('via pitch', pitch),
        metres('antipad diameter', via.antipadDiameter),
        metres('drilled diameter', via.drilledDiameter),
      ],
      assumed: [...assumedOfVia(via, 'antipad'), ...assumedLimits(context.board, 'trace_width')],
    },
  ]
}

function smallerAntipad({ board }: FindingContext, via: ViaType, pitch: number): Remedy[] {
  const antipad = drawnDown(board, pitch - board.fabrication.traceWidth.inner)
  const bore = Math.max(via.drilledDiameter, via.backdrill?.diameter ?? 0)
  if (isBelow((antipad - bore) / 2, board.fabrication.drillToCopper)) return []
  return [
    {
      action: 'make the antipad',
      value: metres('antipad diameter', antipad),
      result: metres('web of plane', pitch - antipad),
    },
  ]
}

/** Where the antipad alone cannot shrink because the plane would come too near to the drill. */
function smallerHole({ board }: FindingContext, via: ViaType, pitch: number): Remedy[] {
  const antipad = drawnDown(board, pitch - board.fabrication.traceWidth.inner)
  const drilled = drawnDown(board, antipad - 2 * board.fabrication.drillToCopper)
  if (drilled >= via.drilledDiameter || !drillIsDeepEnough(board, via, drilled)) return []
  return [
    {
      action: 'shrink antipad and drill together, the drill to',
      value: metres('drilled diameter', drilled),
      result: metres('web of plane', pitch - antipad),
    },
  ]
}
