import type { Finding } from '../../findings/finding.ts'
import { findingText } from '../../report/messages.ts'
import type { Review } from '../../review.ts'
import {
  formatLength,
  formatOhms,
  formatOhmsWithBand,
  formatPercent,
  formatSignedRange,
} from '../../units/format.ts'
import { SEVERITIES } from '../failOn.ts'
import { layerName } from './layerName.ts'
import { pairs, paragraph, table } from './table.ts'

/** More assumptions of one finding than this are counted, not listed. */
const SHOWN_ASSUMPTIONS = 3

/** A review for people: what the escape needs, what each line comes to, then the findings, gravest first. */
export function reviewText(result: Review, written: readonly string[]): string {
  const { board, findings } = result
  const revision = board.revision === null ? '' : `, revision ${board.revision}`
  const sorted = SEVERITIES.flatMap((severity) => findings.filter((finding) => finding.severity === severity))
  return [
    paragraph(`${board.title}${revision}`),
    escapesText(result),
    '\nLines in use\n',
    linesText(result),
    processText(result),
    couplingText(result),
    `\n${countText(findings)}\n`,
    ...sorted.map((finding) => oneFinding(finding, result)),
    board.assumptions.length === 0
      ? ''
      : `\n${board.assumptions.length} values were assumed; the report and the JSON list them.\n`,
    written.length === 0 ? '' : `\nWritten: ${written.join(', ')}\n`,
  ].join('')
}

function escapesText({ escapes }: Review): string {
  if (escapes.length === 0) return ''
  return pairs(
    escapes.map((escape) => {
      const plan = escape.plans.find(({ technology }) => technology === escape.chosen)
      const layers = plan?.layers.filter(({ escaped }) => escaped > 0).length ?? 0
      const out = escape.signals.count - (plan?.unescaped.length ?? escape.signals.count)
      return [
        escape.package,
        `${layers} signal layers by ${escape.chosen} vias take out ${out} of ${escape.signals.count} signals`,
      ]
    }),
  )
}

function linesText({ board, lines }: Review): string {
  const unit = board.displayUnit
  const targets = new Map(board.classes.map(({ name, target, tolerance }) => [name, { target, tolerance }]))
  const rows = lines.entries
    .filter(({ used }) => used)
    .map((entry) => {
      const wanted = targets.get(entry.netClass)
      return [
        entry.netClass,
        entry.package === null ? entry.stretch : `${entry.stretch}, ${entry.package}`,
        layerName(board, entry.layer),
        entry.width === null ? '-' : formatLength(entry.width, unit),
        entry.gap === null ? '-' : formatLength(entry.gap, unit),
        entry.runs === null
          ? (entry.refusal ?? '-')
          : formatOhmsWithBand(entry.runs.impedance, entry.runs.band),
        wanted === undefined ? '-' : `${formatOhms(wanted.target)} ± ${formatPercent(wanted.tolerance, 0)}`,
      ]
    })
  if (rows.length === 0) return '  none\n'
  return table(
    [
      { title: 'class', kind: 'word' },
      { title: 'stretch', kind: 'word' },
      { title: 'layer', kind: 'word' },
      { title: 'width', kind: 'number' },
      { title: 'gap', kind: 'number' },
      { title: 'impedance', kind: 'word' },
      { title: 'target', kind: 'word' },
    ],
    rows,
  )
}

/** How far the process may move the necks, and the main routes, that it moves most. */
function processText({ spreads }: Review): string {
  const sides = (['neck', 'main'] as const).flatMap((stretch) => {
    const found = spreads.flatMap(({ entry, spread }) =>
      entry.stretch === stretch && spread !== null ? [spread.likely] : [],
    )
    if (found.length === 0) return []
    const lowest = Math.min(...found.map((range) => range.lowest))
    const highest = Math.max(...found.map((range) => range.highest))
    return [`${stretch === 'neck' ? 'necks' : 'main routes'} ${formatSignedRange({ lowest, highest })}`]
  })
  if (sides.length === 0) return ''
  return paragraph(
    `\nThe process moves them by as much as: ${sides.join(', ')} (root sum of squares of width, thickness and permittivity).`,
  )
}

/** The neck that its neighbours disturb most, in a line. */
function couplingText({ board, couplings }: Review): string {
  const [first, ...others] = couplings
  if (first === undefined) return ''
  const worst = others.reduce((most, each) => (each.nearEnd > most.nearEnd ? each : most), first)
  const over = couplings.filter(({ nearEnd, limit }) => nearEnd > limit).length
  const where = `${worst.net} on ${layerName(board, worst.layer)} at ${worst.package}`
  return paragraph(
    `\nTraces beside necks: at most ${formatPercent(worst.nearEnd)} of their swing as near-end noise (${where}), limit ${formatPercent(worst.limit)}; ${over} of ${couplings.length} necks above.`,
  )
}

function countText(findings: readonly Finding[]): string {
  if (findings.length === 0) return 'No findings'
  const counts = SEVERITIES.map((severity) => {
    const count = findings.filter((finding) => finding.severity === severity).length
    return `${count} ${severity}${count === 1 ? '' : 's'}`
  })
  return `Findings: ${counts.join(', ')}`
}

function oneFinding(finding: Finding, { board }: Review): string {
  const text = findingText(finding, board.displayUnit, (layer) => layerName(board, layer))
  return [
    `\n${finding.severity}  ${finding.code}\n`,
    paragraph(text.sentence, 2),
    text.alike === null ? '' : paragraph(text.alike, 2),
    ...text.remedies.map((remedy) => paragraph(`- ${remedy}`, 2, 2)),
    assumedText(finding),
  ].join('')
}

function assumedText({ assumed }: Finding): string {
  if (assumed.length === 0) return ''
  const shown = assumed.slice(0, SHOWN_ASSUMPTIONS).map(({ quantity, value }) => `${quantity} ${value}`)
  const rest = assumed.length - shown.length
  const list = rest > 0 ? `${shown.join(', ')} and ${rest} more` : shown.join(', ')
  return paragraph(`rests on assumed values: ${list}`, 2, 2)
}
