import { formatOhms, formatPercent } from '../../units/format.ts'
import type { ChannelFit, PackageEscape } from '../../escape/escape.ts'
import type { EndSignal, NetSignal, Step } from '../../signal/netSignal.ts'
import { findingText, subjectText } from '../messages.ts'
import { chosenPlan, signalLayers } from './context.ts'
import type { ReportContext } from './context.ts'
import { findingId, sortedFindings } from './findings.ts'
import { count, keepTogether, list, signed, technologyName } from './words.ts'

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
  const sorted = sortedFindings(review.findings)
  const changes = sorted.flatMap((finding, index) => {
    if (finding.severity === 'note') return []
    const { heading, remedies } = findingText(finding, context.unit, context.layerName)
    const subject = subjectText(finding.subject, context.layerName)
    const text = `${subject}: ${remedies[0] ?? ''}`
    return [{ href: `#${findingId(index)}`, heading, text: keepTogether(text) }]
  })
  const more = changes.length - MOST_CHANGES
  const lines: AnswerLine[] = [
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
    { question: 'Worst reflection of a neck', statements: [worstReflection(review.signals, context)] },
  ]
  return {
    lines: lines.map(({ question, statements }) => ({ question, statements: statements.map(keepTogether) })),
    changes: changes.slice(0, MOST_CHANGES),
    hasChanges: changes.length > 0,
    moreChanges: more > 0 ? `${count(more, 'further finding')} below.` : null,
  }
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

/** The straight channels a reader asks for first: one statement for each obstacle and class. */
function widths(escape: PackageEscape, context: ReportContext): string[] {
  const seen = new Set<string>()
  const plan = chosenPlan(escape)
  const used = new Set(plan === undefined ? [] : signalLayers(plan))
  return escape.channels.flatMap((fit) => {
    const key = `${fit.obstacle} ${fit.netClass}`
    if (fit.direction === 'diagonal' || seen.has(key) || !(used.has(fit.layer) || used.size === 0)) return []
    seen.add(key)
    return [`${escape.package}, ${fit.netClass}, between ${obstacleName(fit)}: ${fitText(fit, context)}.`]
  })
}

export function obstacleName(fit: ChannelFit): string {
  if (fit.obstacle === 'land') return 'lands'
  return fit.obstacle === 'via pad' ? 'via pads' : 'holes without pads'
}

function fitText(fit: ChannelFit, { length }: ReportContext): string {
  if (fit.traces === 0) {
    const widest =
      fit.widestOne === null
        ? 'none fits at any width the fabricator makes'
        : `the widest that fits is ${length(fit.widestOne)}`
    return `no trace of ${length(fit.width)} passes; ${widest}`
  }
  return `${count(fit.traces, 'trace')} of ${length(fit.width)}, remainder ${length(fit.remainder)}, by the rule ${fit.governing.rule}`
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
  return `${formatOhms(step.impedanceFrom)} (${step.from}) to ${formatOhms(step.impedanceTo)} (${step.to}) on ${layerName(step.layer)}, ${signal.class}: ${signed(step.reflection)} of the edge if the stretch were long.`
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
  return `${signed(exact)} at the net’s own edge, ${place}, limit ${formatPercent(end.reflection.limit)}: net ${signal.net}, ball ${end.ball} of ${end.package}, neck ${context.length(end.neckLength)} long on ${context.layerName(end.layer)}.`
}
