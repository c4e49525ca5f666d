import { holesNamed } from '../../board/lookup.ts'
import type { Board } from '../../board/board.ts'
import type { NetClass } from '../../board/nets.ts'
import type { LineImpedance } from '../../impedance/estimate.ts'
import type { LineEntry } from '../../impedance/lineTable.ts'
import type { LoadedLine, Passage } from '../../impedance/amongVias.ts'
import { assumedOfLine, assumedOfVia, boardIndex } from '../boardIndex.ts'
import type { FindingContext } from '../context.ts'
import { drawnUp, isAbove, isBelow } from '../drawn.ts'
import { folded, notesTogether, type Weighed } from '../folded.ts'
import type { Finding, Remedy } from '../finding.ts'
import { targetSource } from '../lineRemedies.ts'
import { fraction, metres, ohms } from '../measure.ts'
import { effectSeverity, necksOn, peakOfEnd, worstBy } from '../neckEnds.ts'

/**
 * Necks of which one, with the vias that really stand beside it, their antipads, barrels and pads, differs from that
 * between solid planes by more than the tolerance of its class. A note while the edge does not see it.
 */
export function viasLoadNeck(context: FindingContext): Finding[] {
  const { classes } = boardIndex(context)
  const found = context.lines.entries.flatMap((entry) => {
    const netClass = classes.get(entry.netClass)
    const { impedance, mostLoaded } = entry
    if (netClass === undefined || impedance === null || mostLoaded === null) return []
    const shift = Math.abs(mostLoaded.loaded.ratio - 1)
    if (!isAbove(shift, netClass.tolerance)) return []
    const finding = loadedNeck(context, netClass, entry, impedance, mostLoaded.loaded)
    const remedies = (): Remedy[] => smallerAntipad(context, netClass, entry, impedance, mostLoaded.passage)
    return [{ finding, remedies, weight: shift, name: `class ${entry.netClass} on layer ${entry.layer}` }]
  })
  return folded(found, notesTogether)
}

function loadedNeck(
  context: FindingContext,
  netClass: NetClass,
  entry: LineEntry,
  line: LineImpedance,
  loaded: LoadedLine,
): Weighed['finding'] {
  const worst = worstBy(necksOn(context, netClass.name, entry.package, entry.layer, entry.gap), peakOfEnd)
  const seen = worst !== undefined && effectSeverity(worst) !== 'note'
  return {
    code: 'vias-load-neck',
    severity: seen ? 'warning' : 'note',
    subject: { kind: 'class', name: entry.netClass, layer: entry.layer, package: entry.package, alike: [] },
    measured: fraction('change by the vias', loaded.ratio - 1),
    limit: fraction('at most', netClass.tolerance),
    limitSource: targetSource(netClass),
    details: [
      ohms('among the vias', loaded.impedance, loaded.band),
      ...(entry.loaded === null
        ? []
        : [ohms('mean of the necks of this line', entry.loaded.impedance, entry.loaded.band)]),
      ohms('over solid planes', line.impedance, line.chosen.claimedError),
      ...(worst === undefined ? [] : [fraction('largest reflection', peakOfEnd(worst.end))]),
    ],
    assumed: [
      ...assumedOfLine(line.section),
      ...ownVias(context, entry).flatMap((via) => assumedOfVia(via, 'antipad')),
    ],
  }
}

function ownVias(context: FindingContext, entry: LineEntry): Board['vias'] {
  const index = boardIndex(context)
  return holesNamed(context.board, index.packages.get(entry.package ?? '')?.via ?? null)
}

/** The smallest antipad that the drill allows, if it brings the neck within the tolerance. */
function smallerAntipad(
  context: FindingContext,
  netClass: NetClass,
  entry: LineEntry,
  line: LineImpedance,
  passage: Passage,
): Remedy[] {
  const { board } = context
  const vias = ownVias(context, entry)
  const bore = Math.max(...vias.map((via) => Math.max(via.drilledDiameter, via.backdrill?.diameter ?? 0)))
  const antipad = drawnUp(board, bore + 2 * board.fabrication.drillToCopper)
  const present = Math.max(...vias.map((via) => via.antipadDiameter))
  if (!isBelow(antipad, present)) return []
  const changed = board.vias.map((via) => (vias.includes(via) ? { ...via, antipadDiameter: antipad } : via))
  const loaded = context.rerun.amongVias({ ...board, vias: changed }, line, passage)
  if (loaded === null || isAbove(Math.abs(loaded.ratio - 1), netClass.tolerance)) return []
  return [
    {
      action: 'make the antipad',
      value: metres('antipad diameter', antipad),
      result: fraction('change by the vias', loaded.ratio - 1),
    },
  ]
}
