import type { EscapePlan, PackageEscape, UnescapedBall } from '../../../escape/escape.ts'
import { breakoutMap } from '../../figures/breakoutMap.ts'
import { chosenPlan, signalLayers } from '../context.ts'
import type { ReportContext } from '../context.ts'
import { figure, section, slug } from '../section.ts'
import type { Figure, Section } from '../section.ts'
import { standingOn } from '../standingOn.ts'
import { groupBy, table } from '../table.ts'
import type { Table } from '../table.ts'
import { ABSENT, capital, someOf, technologyName } from '../words.ts'

/** What leaves on which layer, and what stays inside. */
export function escapeSection(context: ReportContext): Section {
  const { escapes } = context.review
  return section({
    id: 'escape',
    title: 'Escape, layer by layer',
    paragraphs: escapes.flatMap((escape) => {
      const method = chosenPlan(escape)?.method
      return method === undefined
        ? []
        : [`${escape.package} is planned by ${method}. Nets leave to half a pitch outside the last row.`]
    }),
    tables: [
      ...escapes.map((escape) => layerTable(escape, context)),
      technologyTable(context),
      ...escapes.flatMap((escape) => unescapedTable(escape)),
    ],
    laterFigures: escapes.flatMap((escape) => maps(escape, context)),
  })
}

function layerTable(escape: PackageEscape, { layerName, length }: ReportContext): Table {
  const plan = chosenPlan(escape)
  return table({
    id: `escape-${slug(escape.package)}`,
    caption: `Escape of ${escape.package} with ${technologyName(escape.chosen)}`,
    columns: [
      'Layer',
      '#Nets that leave',
      'Rings freed',
      '#Vias or lands in the way',
      '#Traces per channel',
      '#Longest neck',
    ],
    rows: (plan?.layers ?? []).map((layer) => [
      layerName(layer.layer),
      String(layer.escaped),
      layer.ringsFreed.length === 0 ? ABSENT : layer.ringsFreed.join(', '),
      String(layer.obstacles),
      String(layer.tracesPerChannel),
      layer.longestNeck === null ? ABSENT : length(layer.longestNeck),
    ]),
    whenEmpty: 'No layer lets a net leave.',
    notes: ['A ring is freed when all its signal balls are out; ring 1 is the outermost.'],
  })
}

/** The same package with the other vias, so that their cost can be weighed. */
function technologyTable({ review, layerName }: ReportContext): Table {
  const rowOf = (escape: PackageEscape, plan: EscapePlan): string[] => {
    const layers = signalLayers(plan)
    return [
      escape.package,
      capital(technologyName(plan.technology)) + (plan.technology === escape.chosen ? ' (as described)' : ''),
      String(layers.length),
      layers.length === 0 ? ABSENT : layers.map(layerName).join(', '),
      String(plan.routes.length),
      String(plan.unescaped.length),
    ]
  }
  return table({
    id: 'technologies',
    caption: 'The same packages with either kind of via',
    columns: ['Package', 'Vias', '#Signal layers', 'Which', '#Nets that leave', '#Without a way out'],
    rows: review.escapes.flatMap((escape) => escape.plans.map((plan) => rowOf(escape, plan))),
    whenEmpty: 'No packages are described.',
  })
}

function unescapedTable(escape: PackageEscape): Table[] {
  const balls = chosenPlan(escape)?.unescaped ?? []
  if (balls.length === 0) return []
  return [
    table({
      id: `unescaped-${slug(escape.package)}`,
      caption: `Signal balls of ${escape.package} without a way out`,
      columns: ['Balls', '#Number', '#Ring', 'Why'],
      rows: groupBy(balls, (ball) => `${ball.ring} ${ball.reason}`).map(
        (group: readonly [UnescapedBall, ...UnescapedBall[]]) => [
          someOf(
            group.map((each) => `${each.ball} (${each.net})`),
            8,
          ),
          String(group.length),
          String(group[0].ring),
          group[0].reason,
        ],
      ),
    }),
  ]
}

function maps(escape: PackageEscape, context: ReportContext): Figure[] {
  const pack = context.packageNamed(escape.package)
  const plan = chosenPlan(escape)
  if (pack === undefined || plan === undefined) return []
  return signalLayers(plan).map((layer) => {
    const id = `map-${slug(escape.package)}-${layer}`
    const routes = plan.routes.filter((route) => route.exitLayer === layer)
    const standing = standingOn(layer, pack, plan, context.review.board)
    const layerName = context.layerName(layer)
    const outermost =
      standing.dogBones.length > 0
        ? ' Vias of the outermost row go where the necks beside them leave room, and are not drawn here.'
        : ''
    const caption = `${escape.package}, ${layerName}: the planned routes and what they pass between, seen from the top of the board, to scale.${outermost}`
    return figure(
      id,
      caption,
      breakoutMap({ id, package: pack, layerName, routes, ...standing, unit: context.unit }),
    )
  })
}
