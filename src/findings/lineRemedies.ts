import type { NetClass } from '../board/nets.ts'
import type { LineEntry } from '../impedance/lineTable.ts'
import type { Metres, Ohms } from '../units/quantity.ts'
import { onLayer } from './boardIndex.ts'
import { widestWithSameCount } from './channels.ts'
import type { FindingContext } from './context.ts'
import type { Remedy } from './finding.ts'
import { layer, metres, ohms } from './measure.ts'
import { drawnNearest, isAbove, isBelow } from './drawn.ts'
import { drawnThickness, requestOf, tryLine, tryWidth } from './trials.ts'

/** What brings a line to its target, each computed again: another width, another height, another layer. */
export function lineRemedies(context: FindingContext, netClass: NetClass, entry: LineEntry): Remedy[] {
  return [
    ...widthRemedy(context, netClass, entry),
    ...thicknessRemedy(context, netClass, entry),
    ...layerRemedy(context, netClass, entry),
  ]
}

const NAMES = { neck: 'the neck', main: 'the main route' } as const

/** Only a width that can be etched, and that lets as many traces pass the channel as pass now. */
function widthRemedy(context: FindingContext, netClass: NetClass, entry: LineEntry): Remedy[] {
  const request = requestOf(entry, netClass)
  const solved = request && tryWidth(context, netClass, request, netClass.target)
  if (!request || solved === null) return []
  const width = drawnNearest(context.board, solved)
  const line = tryLine(context, netClass, { ...request, width })
  if (line === null || isOffTarget(netClass, line.impedance)) return []
  if (isBelow(width, onLayer(context.board, context.board.fabrication.traceWidth, entry.layer))) return []
  if (entry.stretch === 'neck' && isAbove(width, widestNeck(context, netClass, entry))) return []
  return [
    {
      action: `${width > request.width ? 'widen' : 'narrow'} ${NAMES[entry.stretch]} to`,
      value: metres('trace width', width),
      result: ohms('impedance', line.impedance, line.band),
    },
  ]
}

/** A neck wider than its main route would be no neck. */
function widestNeck(context: FindingContext, netClass: NetClass, entry: LineEntry): Metres {
  const channel = widestWithSameCount(context, netClass, entry.package, entry.layer)
  const main = context.lines.main(netClass.name, entry.layer)?.width ?? Infinity
  return Math.min(main, channel ?? entry.width ?? 0)
}

/** Shares of the tolerance, from the target towards the line as it is, that a thickness is sought for: the first that one meets. */
const AIMS = [0, 0.5, 0.95]

function thicknessRemedy(context: FindingContext, netClass: NetClass, entry: LineEntry): Remedy[] {
  const request = requestOf(entry, netClass)
  if (!request) return []
  const { target, tolerance } = netClass
  const side = (entry.runs?.impedance ?? target) > target ? 1 : -1
  for (const share of AIMS) {
    const aim = target * (1 + side * share * tolerance)
    const solved = drawnThickness(context, netClass, request, aim)
    if (!solved || isOffTarget(netClass, solved.impedance)) continue
    return [
      {
        action: `bring ${solved.dielectric} to`,
        value: metres('pressed thickness', solved.thickness),
        result: ohms(`impedance of ${NAMES[entry.stretch]}`, solved.impedance, solved.band),
      },
    ]
  }
  return []
}

/** The nearest to the target of the layers where the same line is within tolerance. */
function layerRemedy(context: FindingContext, netClass: NetClass, entry: LineEntry): Remedy[] {
  const { target, tolerance } = netClass
  const miss = (other: LineEntry): number =>
    other.runs === null ? Infinity : Math.abs(other.runs.impedance / target - 1)
  const [best] = context.lines.entries
    .filter((other) => isSameLine(other, entry) && miss(other) <= tolerance)
    .sort((a, b) => miss(a) - miss(b))
  if (!best?.runs) return []
  return [
    {
      action: `run ${NAMES[entry.stretch]} on`,
      value: layer('layer', best.layer),
      result: ohms('impedance', best.runs.impedance, best.runs.band),
    },
  ]
}

function isSameLine(other: LineEntry, entry: LineEntry): boolean {
  return (
    other.layer !== entry.layer &&
    other.netClass === entry.netClass &&
    other.stretch === entry.stretch &&
    other.package === entry.package &&
    (other.gap === null) === (entry.gap === null)
  )
}

/** Outside the tolerance of its class. */
export function isOffTarget({ target, tolerance }: NetClass, impedance: Ohms): boolean {
  return isAbove(Math.abs(impedance / target - 1), tolerance)
}

/** The end of the tolerance that a line has left. */
export function brokenBound(netClass: NetClass, impedance: Ohms): { what: string; value: Ohms } {
  const { target, tolerance } = netClass
  return impedance > target
    ? { what: 'at most', value: target * (1 + tolerance) }
    : { what: 'at least', value: target * (1 - tolerance) }
}

export function targetSource(netClass: NetClass): string {
  const stated = netClass.assumed.find(({ path }) => path.endsWith('.target'))
  return stated?.source ?? `target and tolerance of class ${netClass.name}`
}
