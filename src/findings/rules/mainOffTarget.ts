import type { NetClass } from '../../board/nets.ts'
import type { LineEntry } from '../../impedance/lineTable.ts'
import { assumedOfLine, boardIndex, onLayer } from '../boardIndex.ts'
import type { FindingContext } from '../context.ts'
import type { Finding, Remedy } from '../finding.ts'
import { brokenBound, isOffTarget, lineRemedies, targetSource } from '../lineRemedies.ts'
import { metres, ohms } from '../measure.ts'
import { drawnThickness, tryLine } from '../trials.ts'

/**
 * A main route outside its class's tolerance: an error, as it is a controlled line; a warning where the error
 * band of its formula reaches back into the tolerance. Where no width reaches the target, the narrowest that
 * can be etched shows how far off it stays.
 */
export function mainOffTarget(context: FindingContext): Finding[] {
  const { classes } = boardIndex(context)
  return context.lines.entries.flatMap((entry) => {
    const netClass = classes.get(entry.netClass)
    if (netClass === undefined || entry.stretch !== 'main' || !entry.used) return []
    if (entry.impedance === null) return unreachable(context, netClass, entry)
    const { impedance, chosen, section } = entry.impedance
    if (!isOffTarget(netClass, impedance)) return []
    return [
      {
        ...about(netClass, entry, impedance, chosen.claimedError),
        remedies: lineRemedies(context, netClass, entry),
        details: [
          ohms('target', netClass.target),
          ...(entry.width === null ? [] : [metres('trace width', entry.width)]),
        ],
        assumed: assumedOfLine(section),
      },
    ]
  })
}

function unreachable(context: FindingContext, netClass: NetClass, entry: LineEntry): Finding[] {
  const width = entry.width ?? onLayer(context.board, context.board.fabrication.traceWidth, entry.layer)
  const { coplanarGap } = netClass.main
  const request = { layer: entry.layer, width, gap: entry.gap, coplanarGap, broadsideLayer: null }
  const line = tryLine(context, netClass, request)
  if (line === null) return []
  const solved = drawnThickness(context, netClass, request, netClass.target)
  const thickness: Remedy[] =
    solved === null || isOffTarget(netClass, solved.impedance)
      ? []
      : [
          {
            action: `with this width, bring ${solved.dielectric} to`,
            value: metres('pressed thickness', solved.thickness),
            result: ohms('impedance', solved.impedance, solved.band),
          },
        ]
  return [
    {
      ...about(netClass, entry, line.impedance, line.band),
      remedies: [...thickness, ...lineRemedies(context, netClass, entry)],
      details: [ohms('target', netClass.target), metres('trace width tried, the narrowest made', width)],
      assumed: netClass.assumed,
    },
  ]
}

function about(
  netClass: NetClass,
  entry: LineEntry,
  impedance: number,
  band: number,
): Pick<Finding, 'code' | 'severity' | 'subject' | 'measured' | 'limit' | 'limitSource'> {
  const bound = brokenBound(netClass, impedance)
  return {
    code: 'main-off-target',
    severity:
      impedance * (1 - band) > bound.value === impedance * (1 + band) > bound.value ? 'error' : 'warning',
    subject: { kind: 'class', name: netClass.name, layer: entry.layer, package: null, alike: [] },
    measured: ohms('impedance of the main route', impedance, band),
    limit: ohms(bound.what, bound.value),
    limitSource: targetSource(netClass),
  }
}
