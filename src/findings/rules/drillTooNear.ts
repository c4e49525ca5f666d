import { holesNamed } from '../../board/lookup.ts'
import type { Package } from '../../board/packages.ts'
import type { ViaType } from '../../board/vias.ts'
import type { Metres } from '../../units/quantity.ts'
import { assumedLimits, assumedOfVia, planesPassed, usedVias } from '../boardIndex.ts'
import type { FindingContext } from '../context.ts'
import { drawnDown, drawnUp, isBelow } from '../drawn.ts'
import type { Finding, Remedy } from '../finding.ts'
import { metres } from '../measure.ts'
import { smallerDrill, tightFindings } from '../tightChannels.ts'
import { drillIsDeepEnough } from '../viaChecks.ts'

/**
 * Copper nearer to a drilled hole than the fabricator allows: a trace in the channel where the pads alone
 * would let it pass, the plane at the edge of an antipad, the lands beside a dog-bone's via; and holes nearer
 * to each other than their walls allow.
 *
 * An error; in a channel with the severity of a channel that is too narrow.
 */
export function drillTooNear(context: FindingContext): Finding[] {
  const channels = tightFindings(context, 'drill-too-near', 'drill', (tight) => smallerDrill(context, tight))
  const fields = context.board.packages.flatMap((pack) =>
    holesNamed(context.board, pack.via).flatMap((via) => [
      ...holeToHole(context, pack, via),
      ...holeToLand(context, pack, via),
    ]),
  )
  return [...channels, ...usedVias(context).flatMap((via) => holeToPlane(context, via)), ...fields]
}

/** From the bore of the back drill where there is one, as it is the wider. */
function holeToPlane(context: FindingContext, via: ViaType): Finding[] {
  const { fabrication } = context.board
  const bore = Math.max(via.drilledDiameter, via.backdrill?.diameter ?? 0)
  const distance = (via.antipadDiameter - bore) / 2
  if (planesPassed(context.board, via).length === 0 || !isBelow(distance, fabrication.drillToCopper))
    return []
  const antipad = drawnUp(context.board, bore + 2 * fabrication.drillToCopper)
  const larger: Remedy[] = [
    {
      action: 'make the antipad',
      value: metres('antipad diameter', antipad),
      result: metres('hole wall to plane', (antipad - bore) / 2),
    },
  ]
  const drilled = via.antipadDiameter - 2 * fabrication.drillToCopper
  return [
    {
      ...about(context, via, null),
      measured: metres('hole wall to the plane at the edge of its antipad', distance),
      limit: metres('at least', fabrication.drillToCopper),
      remedies: [
        ...(keepsWeb(context, via, antipad) ? larger : []),
        ...(bore > via.drilledDiameter
          ? []
          : drillRemedy(
              context,
              via,
              drilled,
              'hole wall to plane',
              (drill) => (via.antipadDiameter - drill) / 2,
            )),
      ],
      details: [
        metres('diameter of the hole, back drill included,', bore),
        metres('antipad diameter', via.antipadDiameter),
      ],
    },
  ]
}

/** Whether neighbouring antipads of that size leave a web of plane that can be etched. */
function keepsWeb({ board }: FindingContext, via: ViaType, antipad: Metres): boolean {
  return board.packages
    .filter((pack) => pack.via === via.name)
    .every(({ viaPitch }) => Math.min(viaPitch.x, viaPitch.y) - antipad >= board.fabrication.traceWidth.inner)
}

function holeToHole(context: FindingContext, pack: Package, via: ViaType): Finding[] {
  const { holeWallToHoleWall } = context.board.fabrication
  const pitch = Math.min(pack.viaPitch.x, pack.viaPitch.y)
  const distance = pitch - via.drilledDiameter
  if (!isBelow(distance, holeWallToHoleWall)) return []
  return [
    {
      ...about(context, via, pack.name),
      measured: metres('hole wall to hole wall', distance),
      limit: metres('at least', holeWallToHoleWall),
      remedies: drillRemedy(
        context,
        via,
        pitch - holeWallToHoleWall,
        'hole wall to hole wall',
        (drill) => pitch - drill,
      ),
      details: [metres('via pitch', pitch), metres('drilled diameter', via.drilledDiameter)],
    },
  ]
}

/** The via of a dog-bone stands in the middle of four lands, three of them of other nets. */
function holeToLand(context: FindingContext, pack: Package, via: ViaType): Finding[] {
  const { drillToCopper } = context.board.fabrication
  if (pack.viaPlacement !== 'dog-bone') return []
  const centres = Math.hypot(pack.pitch.x, pack.pitch.y) / 2
  const distance = centres - (pack.landDiameter + via.drilledDiameter) / 2
  if (!isBelow(distance, drillToCopper)) return []
  const drilled = 2 * (centres - drillToCopper) - pack.landDiameter
  return [
    {
      ...about(context, via, pack.name),
      measured: metres('hole wall to the lands around it', distance),
      limit: metres('at least', drillToCopper),
      remedies: drillRemedy(
        context,
        via,
        drilled,
        'hole wall to the lands',
        (drill) => centres - (pack.landDiameter + drill) / 2,
      ),
      details: [
        metres('land diameter', pack.landDiameter),
        metres('drilled diameter', via.drilledDiameter),
        metres('centre to centre', centres),
      ],
    },
  ]
}

/** A finer drill, if it is not too fine for its depth, and the distance that it then keeps. */
function drillRemedy(
  { board }: FindingContext,
  via: ViaType,
  largest: Metres,
  what: string,
  distanceAt: (drilled: Metres) => Metres,
): Remedy[] {
  const drilled = drawnDown(board, largest)
  if (!drillIsDeepEnough(board, via, drilled)) return []
  return [
    {
      action: 'drill',
      value: metres('drilled diameter', drilled),
      result: metres(what, distanceAt(drilled)),
    },
  ]
}

function about(
  { board }: FindingContext,
  via: ViaType,
  packageName: string | null,
): Pick<Finding, 'code' | 'severity' | 'subject' | 'limitSource' | 'assumed'> {
  return {
    code: 'drill-too-near',
    severity: 'error',
    subject: { kind: 'via', name: via.name, layer: null, package: packageName, alike: [] },
    limitSource: board.fabrication.source,
    assumed: [
      ...assumedOfVia(via, 'antipad', 'plating', 'drilled'),
      ...assumedLimits(board, 'drill_to_copper', 'hole_to_hole'),
    ],
  }
}
