import type { FindingContext } from '../context.ts'
import { folded, notesTogether, type Weighed } from '../folded.ts'
import type { Finding, Remedy } from '../finding.ts'
import { fraction, layer, metres, ohms, seconds } from '../measure.ts'
import {
  caseOf,
  effectSeverity,
  neckEffect,
  neckGroups,
  otherNets,
  peakOfEnd,
  triedPeak,
  worstBy,
  type NeckEnd,
} from '../neckEnds.ts'
import { atLength, atWidth, besideMain, firstPassing, onOtherLayer, shortestNeck } from '../neckTrials.ts'
import { onLayer } from '../boardIndex.ts'
import { widestWithSameCount } from '../channels.ts'
import { requestOf, tryThickness, tryWidth } from '../trials.ts'

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
      ...(end.allowance === null
        ? []
        : [metres('length that the guide of the interface allows', end.allowance.length)]),
    ],
    assumed: netClass.assumed.filter(({ path }) => /\.(edge|source_impedance|load_impedance)$/.test(path)),
  }
}

/** The peak at the two ends of the neck's own error band. */
function withinBand(context: FindingContext, worst: NeckEnd): Finding['details'] {
  const line = context.lines.neck(worst.netClass.name, worst.end.layer, worst.end.package, worst.end.gap)
  const band = line?.impedance?.chosen.claimedError
  if (band === undefined) return []
  const neck = caseOf(worst)
  const peaks = [1 - band, 1 + band].map((factor) =>
    triedPeak(context, worst.netClass, {
      ...neck,
      sections: neck.sections.map((section) => ({ ...section, impedance: section.impedance * factor })),
    }),
  )
  return [fraction('at the worse end of the band of the neck', Math.max(...peaks))]
}

function remediesFor(context: FindingContext, worst: NeckEnd): Remedy[] {
  return [
    ...neckWidth(context, worst),
    ...mainWidth(context, worst),
    ...neckLength(context, worst),
    ...otherLayer(context, worst),
    ...neckHeight(context, worst),
  ]
}

const reflection = (peak: number): Remedy['result'] => fraction('peak reflection', peak)

function neckWidth(context: FindingContext, worst: NeckEnd): Remedy[] {
  const { end, netClass } = worst
  const main = context.lines.main(netClass.name, end.layer)?.width ?? null
  const least = onLayer(context.board, context.board.fabrication.traceWidth, end.layer)
  const widest = widestWithSameCount(context, netClass, end.package, end.layer) ?? end.width
  const towardsMain = end.neckImpedance > end.mainImpedance ? Math.min(widest, main ?? widest) : least
  const passing = firstPassing(context, worst, end.width, towardsMain, (width) =>
    atWidth(context, worst, width),
  )
  if (passing === null) return []
  const verb = passing.value > end.width ? 'widen' : 'narrow'
  const value = metres('trace width', passing.value)
  return [{ action: `${verb} the neck to`, value, result: reflection(passing.peak) }]
}

/** As far as the tolerance of the main route goes. */
function mainWidth(context: FindingContext, worst: NeckEnd): Remedy[] {
  const { end, netClass } = worst
  const { target, tolerance } = netClass
  const farthest = target * (1 + (end.neckImpedance > end.mainImpedance ? tolerance : -Number(tolerance)))
  const passing = firstPassing(context, worst, end.mainImpedance, farthest, (main) => besideMain(worst, main))
  const entry = context.lines.main(netClass.name, end.layer)
  const request = entry && requestOf(entry, netClass)
  if (passing === null || !request) return []
  const solved = tryWidth(context, netClass, request, passing.value)
  if (solved === null) return []
  if (solved.width < onLayer(context.board, context.board.fabrication.traceWidth, end.layer)) return []
  const verb = solved.width > request.width ? 'widen' : 'narrow'
  return [
    {
      action: `${verb} the main route, within its tolerance, to`,
      value: metres('trace width', solved.width),
      result: reflection(passing.peak),
    },
  ]
}

function neckLength(context: FindingContext, worst: NeckEnd): Remedy[] {
  const shortest = shortestNeck(context, worst)
  const passing = firstPassing(context, worst, worst.end.neckLength, shortest, (length) =>
    atLength(worst, length),
  )
  if (passing === null) return []
  const value = metres('length of the neck', passing.value)
  return [{ action: 'shorten the neck to', value, result: reflection(passing.peak) }]
}

/** The layer of the table where the same neck reflects least, if it passes there. */
function otherLayer(context: FindingContext, worst: NeckEnd): Remedy[] {
  const { end, netClass } = worst
  const layers = new Set(
    context.lines.entries.filter((entry) => entry.layer !== end.layer).map((entry) => entry.layer),
  )
  const tried = [...layers].flatMap((number) => {
    const neck = onOtherLayer(context, worst, number)
    return neck === null ? [] : [{ number, peak: triedPeak(context, netClass, neck) }]
  })
  const [best] = tried.sort((a, b) => a.peak - b.peak)
  if (best === undefined || best.peak > end.reflection.limit) return []
  return [{ action: 'leave on', value: layer('layer', best.number), result: reflection(best.peak) }]
}

/** Brings the neck to the main route's target; the main route is then solved anew on that stackup. */
function neckHeight(context: FindingContext, worst: NeckEnd): Remedy[] {
  const { end, netClass } = worst
  const entry = context.lines.neck(netClass.name, end.layer, end.package, end.gap)
  const request = entry && requestOf(entry, netClass)
  const solved = request && tryThickness(context, netClass, request, netClass.target)
  if (!solved || solved.thickness < context.board.fabrication.minDielectric) return []
  const neck = caseOf(worst)
  const [near, ...rest] = neck.sections
  if (near === undefined || netClass.main.width !== null) return []
  const peak = triedPeak(context, netClass, {
    ...neck,
    main: netClass.target,
    sections: [{ ...near, impedance: solved.impedance }, ...rest],
  })
  if (peak > end.reflection.limit) return []
  return [
    {
      action: `solve the main route anew, and bring ${solved.dielectric} to`,
      value: metres('pressed thickness', solved.thickness),
      result: reflection(peak),
    },
  ]
}
