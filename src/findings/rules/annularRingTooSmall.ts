import { holesNamed } from '../../board/lookup.ts'
import type { ViaType } from '../../board/vias.ts'
import type { Metres } from '../../units/quantity.ts'
import { assumedLimits, assumedOfVia, boardIndex, isOuter, usedVias } from '../boardIndex.ts'
import { channelsOf } from '../channels.ts'
import type { FindingContext } from '../context.ts'
import { drawnDown, drawnUp, isBelow } from '../drawn.ts'
import type { Finding, Remedy } from '../finding.ts'
import { metres } from '../measure.ts'
import { drillIsDeepEnough, remainderWith, ringsOf, type Ring } from '../viaChecks.ts'

/**
 * A ring of copper round a hole that is below the limit of the performance class: external rings from the
 * finished hole, internal ones from the drilled hole (IPC-6012). The thinnest of each kind is reported.
 *
 * An error if it is too thin as drawn. If the layers may shift so far that it becomes too thin, a warning for
 * class 3, a note for class 2, which accepts a hole that breaks out by a quarter of its rim. Microvias are
 * burnt to marks of their own layer and are judged as drawn.
 */
export function annularRingTooSmall(context: FindingContext): Finding[] {
  return usedVias(context).flatMap((via) => {
    const rings = ringsOf(context.board, via)
    return (['external', 'internal'] as const).flatMap((place) => {
      const [thinnest] = rings
        .filter((ring) => ring.place === place)
        .sort((a, b) => a.ring - a.limit - (b.ring - b.limit))
      return thinnest === undefined ? [] : judge(context, via, thinnest)
    })
  })
}

function judge(context: FindingContext, via: ViaType, ring: Ring): Finding[] {
  const { registration, annularRing } = context.board.fabrication
  if (isBelow(ring.ring, ring.limit)) {
    return [{ ...about(context, via, ring, 0), severity: 'error' }]
  }
  if (via.kind === 'microvia' || !isBelow(ring.ring, ring.limit + registration)) return []
  const severity = annularRing.ipcClass === 3 ? 'warning' : 'note'
  return [{ ...about(context, via, ring, registration), severity }]
}

function about(context: FindingContext, via: ViaType, ring: Ring, shift: Metres): Omit<Finding, 'severity'> {
  const { annularRing, registration } = context.board.fabrication
  return {
    code: 'annular-ring-too-small',
    subject: { kind: 'via', name: via.name, layer: ring.layer, package: null, alike: [] },
    measured: metres(ringAfter(ring, shift), ring.ring - shift),
    limit: metres(`at least, class ${annularRing.ipcClass}`, ring.limit),
    limitSource: annularRing.source,
    remedies: [...largerPad(context, via, ring, shift), ...finerDrill(context, via, ring, shift)],
    details: [
      metres('pad diameter', ring.pad),
      metres('drilled diameter', via.drilledDiameter),
      metres('finished diameter', via.finishedDiameter),
      metres('shift of the layers, plus or minus', registration),
    ],
    assumed: [
      ...assumedOfVia(via, 'pad', 'plating', 'drilled', 'finished'),
      ...assumedLimits(context.board, 'annular_ring', 'registration'),
    ],
  }
}

function ringAfter({ place }: Ring, shift: Metres): string {
  return `${place} ring ${shift === 0 ? 'as drawn' : 'with the layers shifted as far as stated'}`
}

/** If every trace that passes the pads now still passes them then. */
function largerPad(context: FindingContext, via: ViaType, ring: Ring, shift: Metres): Remedy[] {
  const hole = ring.place === 'external' ? via.finishedDiameter : via.drilledDiameter
  const pad = drawnUp(context.board, hole + 2 * (ring.limit + shift))
  const index = boardIndex(context)
  const passes = channelsOf(context)
    .filter(({ package: pack, fit }) => {
      const own = holesNamed(context.board, index.packages.get(pack)?.via ?? null)
      const sameKind = isOuter(context.board, fit.layer) === (ring.place === 'external')
      return sameKind && fit.obstacle === 'via pad' && fit.traces > 0 && own.includes(via)
    })
    .every(
      (channel) =>
        remainderWith(channel, 'trace to pad', pad) + context.board.analysis.comparisonTolerance >= 0,
    )
  if (!passes) return []
  return [
    {
      action: 'make the pad',
      value: metres('pad diameter', pad),
      result: metres(ringAfter(ring, shift), (pad - hole) / 2 - shift),
    },
  ]
}

function finerDrill(context: FindingContext, via: ViaType, ring: Ring, shift: Metres): Remedy[] {
  const plating = ring.place === 'external' ? via.drilledDiameter - via.finishedDiameter : 0
  const drilled = drawnDown(context.board, ring.pad - 2 * (ring.limit + shift) + plating)
  if (drilled >= via.drilledDiameter || !drillIsDeepEnough(context.board, via, drilled)) return []
  return [
    {
      action: 'drill',
      value: metres('drilled diameter', drilled),
      result: metres(ringAfter(ring, shift), (ring.pad - drilled + plating) / 2 - shift),
    },
  ]
}
