import { formatOhms, formatPercent } from '../../units/format.ts'
import type { ChannelFit, PackageEscape } from '../../escape/escape.ts'
import type { EndSignal, NetSignal, Step } from '../../signal/netSignal.ts'
import { findingText, subjectText } from '../messages.ts'
import { signalLayers } from './context.ts'
import type { ReportContext } from './context.ts'
import { findingGroups, groupId } from './findings.ts'
import { openChannels } from './openChannels.ts'
import { groupBy } from './table.ts'
import { count, keepTogether, list, signedPercent, someOf, technologyName } from './words.ts'

/** The short answer: what a reader takes away who reads nothing else. */
export interface Answer {
  readonly lines: readonly AnswerLine[]
  readonly changes: readonly { readonly href: string; readonly heading: string; readonly text: string }[]
  readonly hasChanges: boolean
  readonly moreChanges: string | null
}

export interface AnswerLine {
  readonly question: string
  readonly statements: readonly string[]
}

const MOST_CHANGES = 6

export function answer(context: ReportContext): Answer {
  const { review } = context
  const changes = findingGroups(review.findings).flatMap((group) => {
    const [first, ...others] = group
    if (first.severity === 'note') return []
    const { heading, remedies } = findingText(first, context.unit, context.layerName)
    const also = others.length === 0 ? '' : ` and ${others.length} more`
    const text = `${subjectText(first.subject, context.layerName)}${also}: ${remedies[0] ?? ''}`
    return [{ href: `#${groupId(group)}`, heading, text: keepTogether(text) }]
  })
  const more = changes.length - MOST_CHANGES
  const lines: AnswerLine[] = [
    ...programFaults(review.escapes, context),
    {
      question: 'Signal layers needed',
      statements: review.escapes.map((escape) => layersNeeded(escape, context)),
    },
    { question: 'Vias', statements: review.escapes.map((escape) => viasUsed(escape, context)) },
    {
      question: 'Width per channel',
      statements: review.escapes.flatMap((escape) => widths(escape, context)),
    },
    { question: 'Worst step', statements: [worstStep(review.signals, context)] },
    { question: 'Worst reflection of a breakout', statements: [worstReflection(review.signals, context)] },
  ]
  return {
    lines: lines.map(({ question, statements }) => ({ question, statements: statements.map(keepTogether) })),
    changes: changes.slice(0, MOST_CHANGES),
    hasChanges: changes.length > 0,
    moreChanges: more > 0 ? `${count(more, 'further kind')} of finding below.` : null,
  }
}

/** A plan that breaks a clearance rule is a fault of ours: said before everything that rests on it. */
function programFaults(
  escapes: readonly PackageEscape[],
  { length, layerName }: ReportContext,
): AnswerLine[] {
  const statements = escapes.flatMap((escape) =>
    escape.plans.flatMap((plan) => {
      const [first] = plan.check.faults
      if (first === undefined) return []
      return [
        `${escape.package}, planned with ${technologyName(plan.technology)}: ${count(plan.check.faults.length, 'place')} too near, e.g. ball ${first.ball} to ${first.other} on ${layerName(first.layer)}, ${length(first.found)} where ${first.rule} asks for ${length(first.needed)}. This plan must not be trusted, nor what rests on it: layers, necks and their impedances.`,
      ]
    }),
  )
  return statements.length === 0 ? [] : [{ question: 'Fault of the program', statements }]
}

function layersNeeded(escape: PackageEscape, { layerName }: ReportContext): string {
  const plans = escape.plans.map((plan) => {
    const layers = signalLayers(plan)
    const left = plan.unescaped.length
    const names = layers.length === 0 ? '' : ` (${list(layers.map(layerName))})`
    const rest =
      left === 0 ? '' : `, and still ${count(left, 'ball')} of ${escape.signals.count} without a way out`
    return `${layers.length}${names} with ${technologyName(plan.technology)}${rest}`
  })
  return `${escape.package}: ${plans.join('; ')}.`
}

function viasUsed(escape: PackageEscape, { packageNamed }: ReportContext): string {
  const pack = packageNamed(escape.package)
  const place = pack?.viaPlacement === 'in pad' ? 'in the pad' : 'beside the land, by dog-bone'
  return `${escape.package}: ${pack?.via ?? technologyName(escape.chosen)}, ${place}; planned with ${technologyName(escape.chosen)}.`
}

/**
 * One statement for each kind of obstacle and room between them: a tight layer speaks for itself alone, not for the
 * roomier ones.
 */
function widths(escape: PackageEscape, context: ReportContext): string[] {
  const { layerName, length, packageNamed } = context
  const open = openChannels(packageNamed(escape.package), escape.channels)
  const straight = open.filter((fit) => fit.direction !== 'diagonal')
  const key = (fit: ChannelFit): string => `${obstacleName(fit)} ${length(fit.governing.clear)}`
  return groupBy(straight, key).map((group) => {
    const tightest = group.reduce(
      (low, fit) => (fit.governing.clear < low.governing.clear ? fit : low),
      group[0],
    )
    const refused = [...new Set(group.filter((fit) => fit.traces === 0).map((fit) => fit.netClass))]
    const layers = [...new Set(group.map((fit) => layerName(fit.layer)))]
    const misses = refused.length === 0 ? '' : `; too narrow for ${someOf(refused)}`
    return `${escape.package} between ${obstacleName(tightest)} (${someOf(layers)}): ${widestText(group, tightest, context)}, by ${tightest.governing.rule}${misses}.`
  })
}

/** Only widths that the fabricator makes are worth a word. */
function widestText(
  group: readonly ChannelFit[],
  tightest: ChannelFit,
  { review, length }: ReportContext,
): string {
  const { fabrication, stackup } = review.board
  const outer = tightest.layer === 1 || tightest.layer === stackup.copper.length
  const narrowest = outer ? fabrication.traceWidth.outer : fabrication.traceWidth.inner
  const one = tightest.widestOne
  if (one === null || one < narrowest) return `no trace of ${length(narrowest)}, the narrowest that is made`
  const two = Math.min(...group.map((fit) => fit.widestTwo ?? 0))
  return two < narrowest
    ? `one trace up to ${length(one)}, and not two`
    : `one trace up to ${length(one)}, or two up to ${length(two)} each`
}

export function obstacleName(fit: ChannelFit): string {
  if (fit.obstacle === 'land') return 'lands'
  return fit.obstacle === 'via pad' ? 'via pads' : 'holes without pads'
}

function worstStep(signals: readonly NetSignal[], { layerName }: ReportContext): string {
  let worst: { step: Step; signal: NetSignal } | null = null
  for (const signal of signals) {
    for (const step of signal.steps) {
      if (worst === null || Math.abs(step.reflection) > Math.abs(worst.step.reflection))
        worst = { step, signal }
    }
  }
  if (worst === null) return 'No net has two stretches of known impedance.'
  const { step, signal } = worst
  return `${formatOhms(step.impedanceFrom)} (${step.from}) to ${formatOhms(step.impedanceTo)} (${step.to}) on ${layerName(step.layer)}, ${signal.class}: ${signedPercent(step.reflection)} of the edge if the stretch were long.`
}

/** The larger of the two cases: between main routes, and in front of the device. */
export function worstPeak({ reflection }: EndSignal): { exact: number; place: string } {
  const { mainBothSides, device } = reflection
  return Math.abs(device.exact) > Math.abs(mainBothSides.exact)
    ? { exact: device.exact, place: 'in front of the device' }
    : { exact: mainBothSides.exact, place: 'with main route on both sides' }
}

function worstReflection(signals: readonly NetSignal[], context: ReportContext): string {
  let worst: { end: EndSignal; signal: NetSignal } | null = null
  const size = (end: EndSignal): number => Math.abs(worstPeak(end).exact)
  for (const signal of signals) {
    for (const end of signal.ends) if (worst === null || size(end) > size(worst.end)) worst = { end, signal }
  }
  if (worst === null) return 'No neck with a known main route behind it.'
  const { end, signal } = worst
  const { exact, place } = worstPeak(end)
  return `${signedPercent(exact)} at the net’s own edge, ${place}, limit ${formatPercent(end.reflection.limit)}: net ${signal.net}, ball ${end.ball} of ${end.package}, neck ${context.length(end.neckLength)} long on ${context.layerName(end.layer)}.`
}
