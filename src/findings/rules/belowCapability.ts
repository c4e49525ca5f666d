import type { NetClass } from '../../board/nets.ts'
import type { DielectricLayer } from '../../board/stackup.ts'
import type { LineEntry } from '../../impedance/lineTable.ts'
import { groupBy } from '../../numerics/groupBy.ts'
import type { Metres } from '../../units/quantity.ts'
import { assumedLimits, boardIndex, onLayer } from '../boardIndex.ts'
import type { FindingContext } from '../context.ts'
import { isBelow } from '../drawn.ts'
import type { Finding, Remedy } from '../finding.ts'
import { isOffTarget } from '../lineRemedies.ts'
import { metres, ohms } from '../measure.ts'
import { drawnThickness, requestOf, tryLine, tryLineOn } from '../trials.ts'

/**
 * Anything finer than the fabricator makes: widths and gaps of the lines in use, and dielectrics thinner than
 * can be pressed. An error. One finding for each class, stretch and dimension, on the finest layer.
 */
export function belowCapability(context: FindingContext): Finding[] {
  const fine = context.lines.entries.filter((entry) => entry.used).flatMap((entry) => tooFine(context, entry))
  const groups = groupBy(
    fine,
    ({ entry, what }) => `${entry.netClass}|${entry.stretch}|${entry.package ?? ''}|${what}`,
  )
  const lines = [...groups.values()].flatMap((group) => {
    const [finest] = [...group].sort((a, b) => a.value / a.limit - b.value / b.limit)
    return finest === undefined ? [] : [fineLine(context, finest, group)]
  })
  return [...lines, ...thinDielectrics(context)]
}

interface FineLine {
  readonly entry: LineEntry
  readonly netClass: NetClass
  readonly what: 'trace width' | 'gap inside the pair' | 'gap to the ground beside'
  readonly value: Metres
  readonly limit: Metres
}

function tooFine(context: FindingContext, entry: LineEntry): FineLine[] {
  const { fabrication, analysis } = context.board
  const netClass = boardIndex(context).classes.get(entry.netClass)
  if (netClass === undefined) return []
  const widths = onLayer(context.board, fabrication.traceWidth, entry.layer)
  const gaps = onLayer(context.board, fabrication.traceGap, entry.layer)
  const coplanar = entry.stretch === 'main' ? netClass.main.coplanarGap : null
  const lines = [
    { what: 'trace width', value: entry.width, limit: widths },
    { what: 'gap inside the pair', value: entry.gap, limit: gaps },
    { what: 'gap to the ground beside', value: coplanar, limit: gaps },
  ] as const
  return lines.flatMap(({ what, value, limit }) =>
    value !== null && value + analysis.comparisonTolerance < limit
      ? [{ entry, netClass, what, value, limit }]
      : [],
  )
}

function fineLine(context: FindingContext, finest: FineLine, group: readonly FineLine[]): Finding {
  const { entry, netClass, what, value, limit } = finest
  const { fabrication } = context.board
  const others = new Set(group.map((each) => each.entry.layer).filter((number) => number !== entry.layer))
  return {
    code: 'below-capability',
    severity: 'error',
    subject: {
      kind: 'class',
      name: netClass.name,
      layer: entry.layer,
      package: entry.package,
      alike: [...others].map((number) => `layer ${number}`),
    },
    measured: metres(`${what} of the ${entry.stretch === 'neck' ? 'neck' : 'main route'}`, value),
    limit: metres('at least', limit),
    limitSource: fabrication.source,
    remedies: asFineAsMade(context, finest),
    details: [ohms('target', netClass.target)],
    assumed: [
      ...netClass.assumed.filter(({ path }) => path.endsWith('gap')),
      ...assumedLimits(context.board, 'trace_width', 'trace_gap'),
    ],
  }
}

/** The dimension at its limit, and what the line then has. */
function asFineAsMade(context: FindingContext, { entry, netClass, what, limit }: FineLine): Remedy[] {
  const request = requestOf(entry, netClass)
  if (request === null) return []
  const changed = {
    ...request,
    ...(what === 'trace width' ? { width: limit } : {}),
    ...(what === 'gap inside the pair' ? { gap: limit } : {}),
    ...(what === 'gap to the ground beside' ? { coplanarGap: limit } : {}),
  }
  const line = tryLine(context, netClass, changed)
  if (line === null) return []
  const solved = drawnThickness(context, netClass, changed, netClass.target)
  const thickness: Remedy[] =
    solved === null || isOffTarget(netClass, solved.impedance)
      ? []
      : [
          {
            action: `with the ${what} at its limit, bring ${solved.dielectric} to`,
            value: metres('pressed thickness', solved.thickness),
            result: ohms('impedance', solved.impedance, solved.band),
          },
        ]
  return [
    {
      action: `make the ${what}`,
      value: metres(what, limit),
      result: ohms('impedance', line.impedance, line.band),
    },
    ...thickness,
  ]
}

function thinDielectrics(context: FindingContext): Finding[] {
  const { stackup, fabrication } = context.board
  return stackup.layers.flatMap((part) => {
    if (part.kind !== 'dielectric' || !isBelow(part.thickness, fabrication.minDielectric)) return []
    return [
      {
        code: 'below-capability' as const,
        severity: 'error' as const,
        subject: { kind: 'layer' as const, name: part.name, layer: null, package: null, alike: [] },
        measured: metres('pressed thickness', part.thickness),
        limit: metres('at least', fabrication.minDielectric),
        limitSource: fabrication.source,
        remedies: thickEnough(context, part),
        details: [],
        assumed: [...part.assumed, ...assumedLimits(context.board, 'minimum_dielectric')],
      },
    ]
  })
}

/** The line in use that its thickness moves most, on a stackup with the thinnest dielectric that is made. */
function thickEnough(context: FindingContext, part: DielectricLayer): Remedy[] {
  const { stackup, fabrication } = context.board
  const thickness = fabrication.minDielectric
  const changed = {
    ...stackup,
    layers: stackup.layers.map((each) => (each === part ? { ...part, thickness } : each)),
    computedThickness: stackup.computedThickness + thickness - part.thickness,
  }
  const { classes } = boardIndex(context)
  const moved = context.lines.entries.flatMap((entry) => {
    const netClass = classes.get(entry.netClass)
    const request = netClass && requestOf(entry, netClass)
    const { runs } = entry
    if (!entry.used || runs === null || netClass === undefined || !request) return []
    const line = tryLineOn(context, changed, netClass, request)
    return line === null ? [] : [{ entry, line, move: Math.abs(line.impedance / runs.impedance - 1) }]
  })
  const [most] = moved.sort((a, b) => b.move - a.move)
  const value = metres('pressed thickness', thickness)
  if (most === undefined) return [{ action: 'bring it to', value, result: value }]
  const { entry, line } = most
  const name = `impedance of the ${entry.stretch === 'neck' ? 'neck' : 'main route'} of ${entry.netClass} on layer ${entry.layer}`
  return [{ action: 'bring it to', value, result: ohms(name, line.impedance, line.band) }]
}
