import type { EscapePlan, LayerPlan, PackageEscape, UnescapedBall } from '../../../escape/escape.ts'
import type { Route } from '../../../routes/route.ts'
import { breakoutMaps } from '../breakoutMaps.ts'
import { chosenPlan, signalLayers } from '../context.ts'
import type { ReportContext } from '../context.ts'
import { figure, section, slug } from '../section.ts'
import type { Figure, Section } from '../section.ts'
import { mainNotes, withoutMainTable } from './mainRoutes.ts'
import { groupBy, table, verdict } from '../table.ts'
import type { CellText, Table } from '../table.ts'
import { ABSENT, capital, count, list, someOf, technologyName, thousands } from '../words.ts'

/** What leaves on which layer, what stays inside, and what of it is proven. */
export function escapeSection(context: ReportContext): Section {
  const { escapes } = context.review
  return section({
    id: 'escape',
    title: 'Escape, layer by layer',
    paragraphs: [
      ...escapes.flatMap((escape) => faultParagraph(escape)),
      ...methodParagraphs(escapes),
      'Nets leave to half a pitch outside the last row, and widen into their main routes where those have room beside each other. The necks of all nets, with their balls and the sides through which they leave, are listed in the appendix of the report, each with a link to its route in the map.',
      'Proven: on each layer no plan lets more single nets out than “at most” while the vias there stand, because every net further in than the cut passes one of its gates; and no plan needs fewer signal layers than “at least”. Every distance between shapes of different nets is compared with the clearance rules after planning. Heuristic: which nets share a layer, how pairs run, and so the number of signal layers where it is above “at least”.',
    ],
    tables: [
      ...escapes.flatMap((escape) => faultTable(escape, context)),
      ...escapes.map((escape) => layerTable(escape, context)),
      technologyTable(context),
      ...escapes.flatMap((escape) => unescapedTable(escape)),
      ...escapes.flatMap((escape) => withoutMainTable(escape, context)),
    ],
    laterFigures: escapes.flatMap((escape) => maps(escape, context)),
  })
}

function methodParagraphs(escapes: readonly PackageEscape[]): string[] {
  const planned = escapes.flatMap((escape) => {
    const method = chosenPlan(escape)?.method
    return method === undefined ? [] : [{ name: escape.package, method }]
  })
  return groupBy(planned, ({ method }) => method).map((group) => {
    const names = list(group.map(({ name }) => name))
    return `${names} ${group.length === 1 ? 'is' : 'are'} planned by ${group[0].method}.`
  })
}

/** A plan that breaks a rule is a fault of ours: it is said before anything else. */
function faultParagraph(escape: PackageEscape): string[] {
  const faults = chosenPlan(escape)?.check.faults ?? []
  if (faults.length === 0) return []
  return [
    `Fault of the program: the plan of ${escape.package} breaks the clearance rules in ${count(faults.length, 'place')}, listed first below. The nets concerned are withdrawn from the maps and must not be laid out from this report. The description that leads to it is worth reporting.`,
  ]
}

function faultTable(escape: PackageEscape, { layerName, length }: ReportContext): Table[] {
  const faults = chosenPlan(escape)?.check.faults ?? []
  if (faults.length === 0) return []
  return [
    table({
      id: `faults-${slug(escape.package)}`,
      caption: `Fault of the program: clearances of ${escape.package} that the plan breaks`,
      columns: ['Ball', 'Layer', 'Too near to', 'Rule', '#Found', '#Needed', 'Verdict'],
      rows: faults.map((fault) => [
        fault.ball,
        layerName(fault.layer),
        fault.other,
        fault.rule,
        length(fault.found),
        length(fault.needed),
        { text: '', verdict: verdict('fail', 'withdrawn') },
      ]),
    }),
  ]
}

function layerTable(escape: PackageEscape, context: ReportContext): Table {
  const { layerName, length } = context
  const plan = chosenPlan(escape)
  return table({
    id: `escape-${slug(escape.package)}`,
    caption: `Escape of ${escape.package} with ${technologyName(escape.chosen)}`,
    columns: [
      'Layer',
      '#Signals waiting',
      '#Let out',
      '#At most',
      'Limited by',
      'Rings freed',
      '#Longest neck',
      '#Vias in the way',
      '#Traces per channel',
    ],
    rows: (plan?.layers ?? []).map((layer) => [
      { text: layerName(layer.layer), note: viaText(layer, plan?.routes ?? []) },
      layer.bound === null ? ABSENT : String(layer.bound.waiting),
      String(layer.escaped),
      atMostCell(layer),
      limitText(layer, context),
      layer.ringsFreed.length === 0 ? ABSENT : layer.ringsFreed.join(', '),
      layer.longestNeck === null ? ABSENT : length(layer.longestNeck),
      String(layer.obstacles),
      String(layer.tracesPerChannel),
    ]),
    whenEmpty: 'No layer lets a net leave.',
    notes: [
      'A ring is freed when all its signal balls are out; ring 1 is the outermost.',
      ...mainNotes(escape, context),
    ],
  })
}

/** Which holes take the nets of a layer there. */
function viaText({ layer, escaped }: LayerPlan, routes: readonly Route[]): string | null {
  if (escaped === 0) return null
  const vias = routes.flatMap(({ exitLayer, via }) => (exitLayer === layer && via !== null ? [via] : []))
  return vias.length === 0 ? 'without a via' : `by ${list([...new Set(vias)])}`
}

function atMostCell({ bound, escaped }: LayerPlan): CellText {
  if (bound === null) return ABSENT
  const best = Math.min(bound.atMost, bound.waiting)
  return { text: String(bound.atMost), note: escaped >= best ? 'reached' : null }
}

function limitText({ bound }: LayerPlan, { length }: ReportContext): CellText {
  if (bound === null) return ABSENT
  const traces = `traces of ${length(bound.width)}, ${length(bound.gap)} apart`
  if (bound.atMost >= bound.waiting) return { text: 'no cut', note: traces }
  return { text: count(bound.cut.length, 'gate'), note: traces }
}

/** The same package with the other vias, so that their cost can be weighed. */
function technologyTable({ review, layerName, length }: ReportContext): Table {
  const rowOf = (escape: PackageEscape, plan: EscapePlan): CellText[] => {
    const layers = signalLayers(plan)
    const necks = plan.layers.flatMap(({ longestNeck }) => (longestNeck === null ? [] : [longestNeck]))
    return [
      escape.package,
      capital(technologyName(plan.technology)) + (plan.technology === escape.chosen ? ' (as described)' : ''),
      String(layers.length),
      plan.atLeastLayers === null ? 'none is enough' : String(plan.atLeastLayers),
      layers.length === 0 ? ABSENT : layers.map(layerName).join(', '),
      String(plan.routes.length),
      String(plan.unescaped.length),
      necks.length === 0 ? ABSENT : length(Math.max(...necks)),
      clearanceCell(plan),
    ]
  }
  return table({
    id: 'technologies',
    caption: 'The same packages with either kind of via',
    columns: [
      'Package',
      'Vias',
      '#Signal layers',
      '#At least',
      'Which',
      '#Nets that leave',
      '#Without a way out',
      '#Longest neck',
      'Clearances compared',
    ],
    rows: review.escapes.flatMap((escape) => escape.plans.map((plan) => rowOf(escape, plan))),
    whenEmpty: 'No packages are described.',
    notes: [
      'Signal layers: of this plan. At least: signal layers without which no plan gets every signal out; proven.',
    ],
  })
}

function clearanceCell({ check }: EscapePlan): CellText {
  const faults = check.faults.length
  return {
    text: thousands(check.compared),
    verdict:
      faults === 0
        ? verdict('pass', 'none too small')
        : verdict('fail', `${faults} too small: program fault`),
  }
}

function unescapedTable(escape: PackageEscape): Table[] {
  const balls = chosenPlan(escape)?.unescaped ?? []
  if (balls.length === 0) return []
  return [
    table({
      id: `unescaped-${slug(escape.package)}`,
      caption: `Signal balls of ${escape.package} without a way out`,
      columns: ['Balls', '#Number', 'Rings', 'Why'],
      rows: groupBy(balls, ({ reason }) => reason).map(
        (group: readonly [UnescapedBall, ...UnescapedBall[]]) => [
          someOf(
            group.map((each) => `${each.ball} (${each.net})`),
            8,
          ),
          String(group.length),
          [...new Set(group.map(({ ring }) => ring))].toSorted((a, b) => a - b).join(', '),
          group[0].reason,
        ],
      ),
    }),
  ]
}

function maps(escape: PackageEscape, { review, layerName }: ReportContext): Figure[] {
  const beside = (chosenPlan(escape)?.dogBones ?? []).length > 0
  const names = `Outside the ends of the traces stand the names of their balls; letters and numbers name the rows and columns of balls${beside ? ', beside which the vias stand' : ''}.`
  return breakoutMaps(review.board, escape).map(({ id, layer, svg }) =>
    figure(
      id,
      `${escape.package}, ${layerName(layer)}: the planned routes and what they pass between, seen from the top of the board, to scale. ${names}`,
      svg,
    ),
  )
}
