import type { ViaType } from '../../board/vias.ts'
import { assumedLimits, assumedOfVia, usedVias } from '../boardIndex.ts'
import type { FindingContext } from '../context.ts'
import { drawnDown, drawnUp, isAbove } from '../drawn.ts'
import type { Finding, Remedy } from '../finding.ts'
import { count, layer, metres } from '../measure.ts'
import { aspectLimit, holesOf, ringsHold, ringsOf, withDrill, type Hole } from '../viaChecks.ts'

/** A hole deeper for its drilled diameter than the fabricator plates: an error. */
export function aspectRatioTooHigh(context: FindingContext): Finding[] {
  const { board } = context
  return usedVias(context).flatMap((via) => {
    const [deepest] = holesOf(board, via).sort((a, b) => b.depth - a.depth)
    const limit = aspectLimit(board, via)
    if (deepest === undefined || !isAbove(deepest.depth / via.drilledDiameter, limit)) return []
    return [
      {
        code: 'aspect-ratio-too-high' as const,
        severity: 'error' as const,
        subject: { kind: 'via' as const, name: via.name, layer: null, package: null, alike: [] },
        measured: count('depth over drilled diameter', deepest.depth / via.drilledDiameter),
        limit: count('at most', limit),
        limitSource: board.fabrication.source,
        remedies: [...largerDrill(context, via, deepest), ...thinner(context, via, limit)],
        details: [
          metres('depth of the hole', deepest.depth),
          metres('drilled diameter', via.drilledDiameter),
          layer('from', deepest.firstLayer),
          layer('to', deepest.lastLayer),
        ],
        assumed: [...assumedOfVia(via, 'plating', 'drilled'), ...assumedLimits(board, 'aspect_ratio')],
      },
    ]
  })
}

/** With the pads as they are if their rings hold, else with pads that keep them. */
function largerDrill({ board }: FindingContext, via: ViaType, hole: Hole): Remedy[] {
  const limit = aspectLimit(board, via)
  const drilled = drawnUp(board, hole.depth / limit)
  const changed = withDrill(via, drilled)
  const result = count('depth over drilled diameter', hole.depth / drilled)
  if (ringsHold(board, changed)) {
    return [{ action: 'drill', value: metres('drilled diameter', drilled), result }]
  }
  const missing = Math.max(...ringsOf(board, changed).map((ring) => ring.limit - ring.ring))
  const pad = drawnUp(board, Math.max(...via.padDiameters) + 2 * missing)
  return [
    { action: 'drill', value: metres('drilled diameter', drilled), result },
    {
      action: 'with that drill, make the pads',
      value: metres('pad diameter', pad),
      result: metres(
        'annular ring',
        Math.min(...ringsOf(board, withPads(changed, pad)).map((ring) => ring.ring)),
      ),
    },
  ]
}

function withPads(via: ViaType, pad: number): ViaType {
  return { ...via, padDiameters: via.padDiameters.map((present) => Math.max(present, pad)) }
}

/** What the layers between may add up to for the present drill. */
function thinner({ board }: FindingContext, via: ViaType, limit: number): Remedy[] {
  const depth = drawnDown(board, via.drilledDiameter * limit)
  return [
    {
      action: 'with the present drill, make the layers that the hole passes add up to',
      value: metres('depth', depth),
      result: count('depth over drilled diameter', depth / via.drilledDiameter),
    },
  ]
}
