import type { FindingContext } from '../context.ts'
import { folded, notesTogether, type Weighed } from '../folded.ts'
import type { Finding, Measure, Remedy } from '../finding.ts'
import { farads, fraction, layer, metres, ohms, seconds } from '../measure.ts'
import {
  caseOf,
  effectSeverity,
  neckEffect,
  neckGroups,
  otherNets,
  peakOfEnd,
  narrowSections,
  scaledCase,
  triedPeak,
  worstBy,
  type NeckEnd,
} from '../neckEnds.ts'
import {
  atLength,
  atWidth,
  besideMain,
  firstPassing,
  nearWidths,
  onOtherLayer,
  shortestNeck,
  withStub,
} from '../neckTrials.ts'
import { onLayer } from '../boardIndex.ts'
import { widestWithSameCount } from '../channels.ts'
import { drawnThickness, requestOf, tryLine, tryWidth } from '../trials.ts'
import { drawnDown, drawnUp, isAbove, isBelow } from '../drawn.ts'
import { isOffTarget } from '../lineRemedies.ts'
import type { NeckCase } from '../../signal/neckReflection.ts'
import type { Metres } from '../../units/quantity.ts'

/**
 * A neck that sends back more of its net's edge than its limit: the larger of the peak between main routes
 * and of the change before the device. One finding for each class, package and layer, on its worst net; notes of one package
 * are one.
 *
 * An error above twice the limit, a warning above it; inside the length that the interface's published guide
 * allows a note, or a warning where the class states a limit of its own.
 */
export function stepTooLarge(context: FindingContext): Finding[] {
  const found = neckGroups(context).flatMap((group) => {
    const over = group.filter(({ end }) => neckEffect(end) !== 'small')
    // The severest first, then the largest: an ungranted neck weighs more than a granted one.
    const large = over.filter(({ end }) => neckEffect(end) === 'large')
    const worst = worstBy(large.length > 0 ? large : over, peakOfEnd)
    if (worst === undefined) return []
    const finding = findingOn(context, worst, over)
    const remedies = (): Remedy[] => remediesFor(context, worst)
    return [
      {
        finding,
        remedies,
        weight: peakOfEnd(worst.end) / worst.end.reflection.limit,
        name: worst.signal.net,
      },
    ]
  })
  return folded(found, notesTogether)
}

function findingOn(context: FindingContext, worst: NeckEnd, over: readonly NeckEnd[]): Weighed['finding'] {
  const { end, signal, netClass } = worst
  const { mainBothSides, device, limit, limitSource, atNyquist } = end.reflection
  return {
    code: 'step-too-large',
    severity: effectSeverity(worst),
    subject: {
      kind: 'net',
      name: signal.net,
      layer: end.layer,
      package: end.package,
      alike: otherNets(over, worst),
    },
    measured: fraction('peak reflection', peakOfEnd(end)),
    limit: fraction('at most', limit),
    limitSource,
    details: [
      ohms('neck', end.neckImpedance),
      ohms('main route', end.mainImpedance),
      metres('length of the neck', end.neckLength),
      seconds('rise time, 10–90 %', end.riseTime),
      fraction('between main routes, exact', mainBothSides.exact),
      fraction('between main routes, by short-section theory', mainBothSides.shortSection),
      fraction('change before the device, exact', device.exact),
      ohms('device', device.deviceImpedance),
      ...withinBand(context, worst),
      ...(atNyquist === null ? [] : [fraction('reflection at Nyquist', atNyquist.magnitude)]),
      ...viaDetails(worst),
      ...(end.allowance === null
        ? []
        : [metres('length that the guide of the interface allows', end.allowance.length)]),
    ],
    assumed: [
      ...netClass.assumed.filter(({ path }) => /\.(edge|source_impedance|load_impedance)$/.test(path)),
      ...signal.assumed.filter(({ quantity }) => quantity.startsWith('way back of the current')),
    ],
  }
}

/** What hangs of its via, and what neck and dog-bone alone would send back. */
function viaDetails(worst: NeckEnd): Finding['details'] {
  const hanging = narrowSections(worst).find(({ kind }) => kind === 'via')?.hanging
  const { withoutVia } = worst.end.reflection
  return [
    ...(hanging ? [farads('hanging of its via', hanging.capacitance)] : []),
    ...(withoutVia === null ? [] : [fraction('without its via', withoutVia)]),
  ]
}

/** The peak at the worse ends of the error bands of the neck and of its via. */
function withinBand(context: FindingContext, worst: NeckEnd): Finding['details'] {
  const line = context.lines.neck(worst.netClass.name, worst.end.layer, worst.end.package, worst.end.gap)
  const band = line?.runs?.band
  if (band === undefined) return []
  const viaBand = narrowSections(worst).find(({ kind }) => kind === 'via')?.band ?? 0
  const ends = (half: number): number[] => (half === 0 ? [1] : [1 - half, 1 + half])
  const peaks = ends(band).flatMap((factor) =>
    ends(viaBand).map((viaFactor) =>
      triedPeak(context, worst.netClass, scaledCase(worst, factor, viaFactor)),
    ),
  )
  return [fraction('at the worse end of the bands of neck and via', Math.max(...peaks))]
}

function remediesFor(context: FindingContext, worst: NeckEnd): Remedy[] {
  return [
    ...neckWidth(context, worst),
    ...mainWidth(context, worst),
    ...neckLength(context, worst),
    ...otherLayer(context, worst),
    ...drilledBack(context, worst),
    ...neckHeight(context, worst),
  ]
}

function neckWidth(context: FindingContext, worst: NeckEnd): Remedy[] {
  const { end, netClass } = worst
  const { board } = context
  const main = context.lines.main(netClass.name, end.layer)?.width ?? null
  const least = onLayer(board, board.fabrication.traceWidth, end.layer)
  const widest = widestWithSameCount(context, netClass, end.package, end.layer) ?? end.width
  const towardsMain = end.neckImpedance > end.mainImpedance ? Math.min(widest, main ?? widest) : least
  const trial = (width: number): NeckCase | null => atWidth(context, worst, width)
  const search = nearWidths(context, worst)
  const passing = firstPassing(context, worst, end.width, towardsMain, search)
  if (passing === null) return []
  const wider = passing > end.width
  const drawn = wider ? drawnUp(board, passing) : drawnDown(board, passing)
  // The last step to the grid must not leave the channel.
  const width = isBeyond(drawn, towardsMain, wider) ? passing : drawn
  return passed(
    context,
    worst,
    trial(width),
    `${wider ? 'widen' : 'narrow'} the neck to`,
    metres('trace width', width),
  )
}

function isBeyond(value: number, end: number, upwards: boolean): boolean {
  return upwards ? isAbove(value, end) : isBelow(value, end)
}

/** As far as the tolerance of the main route goes. */
function mainWidth(context: FindingContext, worst: NeckEnd): Remedy[] {
  const { end, netClass } = worst
  const { board } = context
  const { target, tolerance } = netClass
  const farthest = target * (1 + (end.neckImpedance > end.mainImpedance ? tolerance : -Number(tolerance)))
  const passing = firstPassing(context, worst, end.mainImpedance, farthest, (main) => besideMain(worst, main))
  const entry = context.lines.main(netClass.name, end.layer)
  const request = entry && requestOf(entry, netClass)
  const solved = passing === null || !request ? null : tryWidth(context, netClass, request, passing)
  if (!request || solved === null) return []
  const wider = solved > request.width
  const width = wider ? drawnUp(board, solved) : drawnDown(board, solved)
  if (isBelow(width, onLayer(board, board.fabrication.traceWidth, end.layer))) return []
  const line = tryLine(context, netClass, { ...request, width })
  if (line === null || isOffTarget(netClass, line.impedance)) return []
  const action = `${wider ? 'widen' : 'narrow'} the main route, at the expense of the tolerance left to the fabricator, to`
  return passed(context, worst, besideMain(worst, line.impedance), action, metres('trace width', width))
}

function neckLength(context: FindingContext, worst: NeckEnd): Remedy[] {
  const shortest = shortestNeck(context, worst)
  const trial = (length: number): NeckCase | null => atLength(worst, length)
  const passing = firstPassing(context, worst, worst.end.neckLength, shortest, trial)
  if (passing === null) return []
  const length = Math.max(shortest, drawnDown(context.board, passing))
  return passed(context, worst, trial(length), 'shorten the neck to', metres('length of the neck', length))
}

/** The remedy, if the neck as it would be drawn does pass. */
function passed(
  context: FindingContext,
  { end, netClass }: NeckEnd,
  neck: NeckCase | null,
  action: string,
  value: Measure,
): Remedy[] {
  const peak = neck === null ? Infinity : triedPeak(context, netClass, neck)
  return peak > end.reflection.limit ? [] : [{ action, value, result: fraction('peak reflection', peak) }]
}

/** The layer of the table where the same neck reflects least, if it passes there. */
function otherLayer(context: FindingContext, worst: NeckEnd): Remedy[] {
  const { end, netClass } = worst
  const layers = new Set(
    context.lines.entries.filter((entry) => entry.layer !== end.layer).map((entry) => entry.layer),
  )
  const tried = [...layers].flatMap((number) => {
    const neck = onOtherLayer(context, worst, number)
    return neck === null ? [] : [{ number, neck, peak: triedPeak(context, netClass, neck) }]
  })
  const [best] = tried.sort((a, b) => a.peak - b.peak)
  return best === undefined ? [] : passed(context, worst, best.neck, 'leave on', layer('layer', best.number))
}

/** Barrel that may be left hanging, m: what back drills leave, common practice, no source. */
const RESIDUAL_STUBS: readonly Metres[] = [0.5e-3, 0.3e-3, 0.2e-3]

/** The longest of them with which the net passes. */
function drilledBack(context: FindingContext, worst: NeckEnd): Remedy[] {
  const hangs = worst.end.stub?.length ?? 0
  for (const residual of RESIDUAL_STUBS.filter((stub) => isBelow(stub, hangs))) {
    const tried = withStub(context, worst, residual)
    const found = passed(context, worst, tried, 'drill its via back to leave', metres('stub', residual))
    if (found.length > 0) return found
  }
  return []
}

/** Brings the neck to the main route's target; the main route is then solved anew on that stackup. */
function neckHeight(context: FindingContext, worst: NeckEnd): Remedy[] {
  const { end, netClass } = worst
  const entry = context.lines.neck(netClass.name, end.layer, end.package, end.gap)
  const request = entry && requestOf(entry, netClass)
  const solved = request && drawnThickness(context, netClass, request, netClass.target)
  const neck = caseOf(worst)
  const [near, ...rest] = neck.sections
  if (!solved || near === undefined || netClass.main.width !== null) return []
  const sections = [{ ...near, impedance: solved.impedance }, ...rest]
  const action = `solve the main route anew, and bring ${solved.dielectric} to`
  const value = metres('pressed thickness', solved.thickness)
  return passed(context, worst, { ...neck, main: netClass.target, sections }, action, value)
}
