import { formatOhms, formatPercent } from '../../../units/format.ts'
import type { NetClass } from '../../../board/nets.ts'
import type { LineImpedance } from '../../../impedance/estimate.ts'
import type { LineEntry, RunningValue } from '../../../impedance/lineTable.ts'
import { neckSection } from '../../figures/neckSection.ts'
import type { ReportContext } from '../context.ts'
import { figure, section, slug } from '../section.ts'
import type { Figure, Section } from '../section.ts'
import { byRanks, groupBy, table, verdict } from '../table.ts'
import type { CellText, Table, Verdict } from '../table.ts'
import { ABSENT, bandText, methodInSentence, ohmsWithBand, target } from '../words.ts'

/** Necks drawn in section: more would repeat themselves. */
const MOST_DRAWN = 3

/** What the fabricator needs, and what the neck really has: one row for each line that a route uses. */
export function impedanceSection(context: ReportContext): Section {
  const used = inOrder(context.review.lines.entries.filter((entry) => entry.used))
  return section({
    id: 'impedance',
    title: 'Impedance, layer by layer',
    paragraphs: [
      'Target, layer and references are what counts for the fabricator; every width is a starting value that their own press and etch data will move. Necks are not controlled: the channel sets their width, and no coupon contains them.',
    ],
    tables: [lineTable('impedance-table', 'Lines that the planned routes use', used, context)],
    laterFigures: worstNecks(used, context).map(({ entry, line }) => neckFigure(entry, line, context)),
  })
}

/** The lines on the layers that no route uses, for comparison; printed in the appendix. */
export function unusedLinesTable(context: ReportContext): Table {
  const unused = inOrder(context.review.lines.entries.filter((entry) => !entry.used))
  return lineTable('unused-lines', 'Lines on other layers, which no planned route uses', unused, context)
}

/** Necks by package, then main routes; each from the top layer down, otherwise as they came. */
function inOrder(entries: readonly LineEntry[]): LineEntry[] {
  const group = ({ stretch, package: pack }: LineEntry): string => (stretch === 'main' ? '' : (pack ?? ''))
  const groups = [...new Set(entries.map(group))].filter((name) => name !== '')
  const rank = (entry: LineEntry): number =>
    group(entry) === '' ? groups.length : groups.indexOf(group(entry))
  return [...entries].sort(byRanks((entry) => [rank(entry), entry.layer]))
}

function lineTable(
  id: string,
  caption: string,
  entries: readonly LineEntry[],
  context: ReportContext,
): Table {
  const computed = entries.flatMap((entry) => (entry.impedance === null ? [] : [entry.impedance]))
  const assuming = computed.filter((line) => line.section.assumed.length > 0)
  const all = computed.length > 0 && assuming.length === computed.length
  return table({
    id,
    caption,
    columns: [
      'Layer',
      '>Line',
      'Type',
      'Target',
      'References',
      '#Width, starting value',
      '#Gap',
      '>Impedance and method',
      'Coupon',
    ],
    rows: entries.map((entry) => lineRow(entry, context, !all)),
    whenEmpty: 'No line is used.',
    notes: [
      ...(all
        ? ['Every impedance here rests on assumed values among others; they are listed with the inputs.']
        : []),
      'The band beside an impedance is that of the method alone; thickness, width and permittivity add theirs. Among the vias: the vias and lands that stand beside the planned path of each net, with their antipads in the planes; traces beside are not in it. Coupon: TDR after IPC-TM-650 2.5.5.7.',
    ],
  })
}

function lineRow(entry: LineEntry, context: ReportContext, marked: boolean): CellText[] {
  const { length, layerName, classNamed } = context
  const netClass = classNamed(entry.netClass)
  const line = entry.impedance
  return [
    layerName(entry.layer),
    lineCell(entry),
    netClass?.structure ?? ABSENT,
    netClass === undefined ? ABSENT : target(netClass.target, netClass.tolerance),
    line === null ? ABSENT : references(line),
    entry.width === null ? ABSENT : { text: length(entry.width), note: entry.widthBasis },
    gapCell(entry, netClass, context),
    line === null || entry.runs === null
      ? (entry.refusal ?? ABSENT)
      : impedanceCell(entry, line, entry.runs, netClass, marked),
    entry.stretch === 'neck' ? 'no' : 'yes',
  ]
}

/** A pair without a gap: nowhere do its traces run side by side, and each is a line of its own. */
function gapCell({ gap }: LineEntry, netClass: NetClass | undefined, { length }: ReportContext): CellText {
  if (gap !== null) return length(gap)
  return netClass?.structure === 'pair' ? { text: 'apart', note: 'not coupled' } : ABSENT
}

function lineCell(entry: LineEntry): CellText {
  if (entry.stretch === 'main') return { text: entry.netClass, note: 'main route' }
  const place = entry.package === null ? '' : ` at ${entry.package}`
  return { text: entry.netClass, note: `neck${place}`, mark: 'not controlled' }
}

function impedanceCell(
  entry: LineEntry,
  line: LineImpedance,
  runs: RunningValue,
  netClass: NetClass | undefined,
  marked: boolean,
): CellText {
  const marks = [
    ...(line.chosen.violations.length > 0 ? ['outside its limits'] : []),
    ...(marked && line.section.assumed.length > 0 ? ['rests on assumed values'] : []),
  ]
  return {
    text: ohmsWithBand(runs.impedance, runs.band),
    notes: [...loadingNote(entry, line), ...methodNote(line)],
    mark: marks.length === 0 ? null : marks.join(', '),
    verdict: netClass === undefined ? null : againstTarget(runs, netClass, entry.stretch),
  }
}

/** Of necks among vias how far they differ, and the value between solid planes. */
function loadingNote({ loaded, range }: LineEntry, line: LineImpedance): string[] {
  if (loaded === null || range === null) return []
  const [lowest, highest] = [formatOhms(range.lowest), formatOhms(range.highest)]
  const nets = lowest === highest ? '' : `, by net ${lowest} to ${highest}`
  return [`mean among the vias${nets}; ${formatOhms(line.impedance)} between solid planes`]
}

/** The method, and the best of the other kind with the difference between the two. */
function methodNote({ chosen, others, closedFormDifference }: LineImpedance): string[] {
  const other = others.find(({ method }) => method.kind !== chosen.method.kind)
  if (other === undefined || closedFormDifference === null) return [chosen.method.title]
  const closedForm = chosen.method.kind === 'closed form' ? chosen : other
  const size = formatPercent(Math.abs(closedFormDifference))
  const side = closedFormDifference > 0 ? 'above' : 'below'
  const band = bandText(closedForm.claimedError)
  return chosen === closedForm
    ? [`closed form; ${size} ${side} the field solution`]
    : [`field solution; closed form ${size} ${side}, ± ${band}`]
}

/** `L2 (GND), L4 (GND)`. */
function references({ section: { planeBelow, planeAbove } }: LineImpedance): string {
  return [planeBelow, planeAbove]
    .flatMap((plane) => (plane === null ? [] : [`${plane.layerName} (${plane.net ?? 'no net'})`]))
    .join(', ')
}

/**
 * The verdict counts the band: only what lies inside the tolerance with its whole band surely passes. A neck off
 * its target is to be watched, not refused: whether it matters is judged among the discontinuities.
 */
function againstTarget(line: RunningValue, netClass: NetClass, stretch: LineEntry['stretch']): Verdict {
  const off = line.impedance / netClass.target - 1
  const band = line.band * (line.impedance / netClass.target)
  const size = formatPercent(Math.abs(off))
  const text = size === '0.0 %' ? 'on target' : `${size} ${off > 0 ? 'above' : 'below'} target`
  if (Math.abs(off) + band <= netClass.tolerance) return verdict('pass', text)
  if (Math.abs(off) - band <= netClass.tolerance) return verdict('watch', `${text}, limit within the band`)
  return verdict(stretch === 'neck' ? 'watch' : 'fail', text)
}

interface Neck {
  readonly entry: LineEntry
  readonly line: LineImpedance
  readonly off: number
}

/** Of each class the neck farthest from its target, farthest first; equal sections are drawn once. */
function worstNecks(entries: readonly LineEntry[], { classNamed }: ReportContext): Neck[] {
  const worst = new Map<string, Neck>()
  for (const entry of entries) {
    const netClass = classNamed(entry.netClass)
    if (entry.stretch !== 'neck' || entry.impedance === null || entry.runs === null || netClass === undefined)
      continue
    const off = Math.abs(entry.runs.impedance / netClass.target - 1)
    const before = worst.get(entry.netClass)
    if (before === undefined || off > before.off)
      worst.set(entry.netClass, { entry, line: entry.impedance, off })
  }
  const sorted = [...worst.values()].sort((a, b) => b.off - a.off)
  return groupBy(sorted, ({ entry }) => JSON.stringify([entry.layer, entry.width, entry.gap]))
    .map(([first]) => first)
    .slice(0, MOST_DRAWN)
}

function neckFigure(entry: LineEntry, line: LineImpedance, { layerName, unit }: ReportContext): Figure {
  const id = `section-${slug(entry.netClass)}`
  const title = `Neck of ${entry.netClass} on ${layerName(entry.layer)}`
  const empty = line.section.emptyLayers
  const passed =
    empty.length === 0 ? '' : ` Copper on ${empty.join(', ')} between trace and plane counts as absent.`
  const impedance = ohmsWithBand(line.impedance, line.chosen.claimedError)
  const among =
    entry.loaded === null ? '' : ` between solid planes, ${formatOhms(entry.loaded.impedance)} among the vias`
  const caption = `${title} in section, the one of its class farthest from its target: ${impedance}${among}, by ${methodInSentence(line.chosen.method.title)}. To scale.${passed}`
  return figure(id, caption, neckSection({ id, section: line.section, title, unit }))
}
