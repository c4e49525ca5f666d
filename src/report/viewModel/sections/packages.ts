import type { Ball, Package } from '../../../board/packages.ts'
import type { ChannelFit, PackageEscape } from '../../../escape/escape.ts'
import { channelPlan } from '../../figures/channelPlan.ts'
import { packageGrid } from '../../figures/packageGrid.ts'
import { obstacleName } from '../answer.ts'
import { chosenPlan, signalLayers } from '../context.ts'
import type { ReportContext } from '../context.ts'
import { section, slug } from '../section.ts'
import type { Figure, Section } from '../section.ts'
import { groupBy, table } from '../table.ts'
import type { CellText, Table } from '../table.ts'
import { ABSENT, capital, count, list, technologyName } from '../words.ts'

/** Each package with its balls, its lands and vias, and what its channels let through. */
export function packagesSection(context: ReportContext): Section {
  const { board, escapes } = context.review
  const escapeOf = new Map(escapes.map((escape) => [escape.package, escape]))
  const pairs = board.packages.flatMap((pack) => {
    const escape = escapeOf.get(pack.name)
    return escape === undefined ? [] : [{ pack, escape }]
  })
  return section({
    id: 'packages',
    title: 'Packages and channels',
    paragraphs: [
      'A channel is the gap between two neighbouring lands or vias that traces pass. Each clearance rule is tested on its own, and the one that leaves least room governs. What is left over after whole traces is the remainder.',
    ],
    figures: pairs.flatMap(({ pack, escape }) => [
      gridFigure(pack, escape, context),
      ...channelFigures(escape, context),
    ]),
    tables: [packageTable(context), ...pairs.map(({ escape }) => channelTable(escape, context))],
  })
}

function gridFigure(pack: Package, escape: PackageEscape, { layerName, unit }: ReportContext): Figure {
  const id = `grid-${slug(pack.name)}`
  const plan = chosenPlan(escape)
  return {
    id,
    caption: `${pack.name} seen from the top of the board: what each ball is for, and the layer on which its net leaves, planned with ${technologyName(escape.chosen)}. Places are to scale; the circles mark balls and are larger than lands.`,
    chartSvg: packageGrid({
      id,
      package: pack,
      exitLayers: new Map((plan?.routes ?? []).map((route) => [route.ball, route.exitLayer])),
      unescaped: new Set((plan?.unescaped ?? []).map((each) => each.ball)),
      layerName,
      unit,
    }),
  }
}

/** One drawing for each kind of obstacle: the tightest straight channel that the plan runs through. */
function channelFigures(escape: PackageEscape, { layerName, unit }: ReportContext): Figure[] {
  const plan = chosenPlan(escape)
  const used = new Set(plan === undefined ? [] : signalLayers(plan))
  const straight = escape.channels.filter((fit) => fit.direction !== 'diagonal')
  const relevant = straight.filter((fit) => used.has(fit.layer))
  const groups = groupBy(relevant.length > 0 ? relevant : straight, (fit) => fit.obstacle)
  return groups.map(([first, ...rest]) => {
    const fit = rest.reduce(
      (tightest, each) => (each.remainder < tightest.remainder ? each : tightest),
      first,
    )
    const id = `channel-${slug(escape.package)}-${slug(fit.obstacle)}`
    return {
      id,
      caption: `${escape.package}, channel ${fit.direction} past ${obstacleName(fit)} on ${layerName(fit.layer)}, for ${fit.netClass}: the tightest of its kind that the plan uses. To scale; the remainder is drawn in one piece.`,
      chartSvg: channelPlan({ id, fit, layerName: layerName(fit.layer), unit }),
    }
  })
}

function packageTable({ review, length }: ReportContext): Table {
  const escapes = new Map(review.escapes.map((escape) => [escape.package, escape]))
  return table({
    id: 'packages-table',
    caption: 'Packages',
    columns: [
      'Package',
      'Grid',
      '#Pitch',
      '#Via pitch',
      'Balls by use',
      '#Land',
      '#Mask opening',
      '#Ball',
      'Via',
      '#Channels per layer',
    ],
    rows: review.board.packages.map((pack) => [
      pack.part === null ? pack.name : { text: pack.name, note: pack.part },
      `${pack.rows} × ${pack.columns}${pack.onGrid ? '' : ', not on a grid'}`,
      pitchText(pack.pitch.x, pack.pitch.y, length),
      pitchText(pack.viaPitch.x, pack.viaPitch.y, length),
      ballsByUse(pack.balls, pack.signalsAssumed),
      assumedMark(length(pack.landDiameter), pack, 'land'),
      assumedMark(length(pack.maskOpening), pack, 'mask'),
      assumedMark(length(pack.ballDiameter), pack, 'ball_diameter'),
      { text: pack.via, note: pack.viaPlacement },
      String(escapes.get(pack.name)?.channelsPerLayer ?? ABSENT),
    ]),
    whenEmpty: 'No packages are described.',
    notes: ['Channels per layer: 2 (rows − 1) + 2 (columns − 1), the gaps on the four sides of the grid.'],
  })
}

function pitchText(x: number, y: number, length: (metres: number) => string): string {
  return x === y ? length(x) : `${length(x)} across, ${length(y)} down`
}

function ballsByUse(balls: readonly Ball[], signalsAssumed: boolean): CellText {
  const uses = ['signal', 'power', 'ground', 'unused'] as const
  const text = uses.flatMap((use) => {
    const number = balls.filter((ball) => ball.use === use).length
    return number === 0 ? [] : [`${number} ${use}`]
  })
  const inferred = signalsAssumed || balls.some((ball) => ball.useAssumed)
  return { text: text.join(', '), mark: inferred ? 'partly assumed' : null }
}

function assumedMark(text: string, pack: Package, key: string): CellText {
  return { text, mark: pack.assumed.some((each) => each.path.includes(key)) ? 'assumed' : null }
}

/** Channels that differ by layer or direction alone share a row. */
function channelTable(escape: PackageEscape, context: ReportContext): Table {
  const { length, layerName } = context
  const key = (fit: ChannelFit): string =>
    JSON.stringify([
      fit.obstacle,
      fit.innerPads,
      fit.netClass,
      fit.width,
      fit.traceGap,
      fit.span,
      fit.governing,
      fit.traces,
      fit.remainder,
    ])
  return table({
    id: `channels-${slug(escape.package)}`,
    caption: `What the channels of ${escape.package} let through`,
    columns: [
      'Between',
      'Class',
      'Layers',
      '#Centre to centre',
      '#Trace width',
      '#Clear, by rule',
      '#Traces that pass',
      '#Remainder',
      '#Widest single',
      '#Widest of two',
    ],
    rows: groupBy(escape.channels, key).map((group) => {
      const [fit] = group
      return [
        { text: obstacleName(fit), note: list([...new Set(group.map((each) => each.direction))]) },
        fit.netClass,
        [...new Set(group.map((each) => layerName(each.layer)))].join(', '),
        length(fit.span),
        { text: length(fit.width), note: `gap ${length(fit.traceGap)}` },
        { text: length(fit.governing.clear), note: clearances(fit, context) },
        String(fit.traces),
        { text: length(fit.remainder), ...(fit.remainder < 0 ? { mark: 'too narrow' } : {}) },
        fit.widestOne === null ? ABSENT : length(fit.widestOne),
        fit.widestTwo === null ? ABSENT : length(fit.widestTwo),
      ]
    }),
    whenEmpty: 'This package has no channels.',
    notes: [
      'Clear: centre to centre, less the obstacle, less twice the clearance. The smallest of the rules governs; the others are below it.',
      `Lengths that differ by no more than ${length(context.review.board.analysis.comparisonTolerance)} count as equal.`,
    ],
  })
}

function clearances(fit: ChannelFit, { length }: ReportContext): string {
  const others = fit.tests
    .filter((test) => test.rule !== fit.governing.rule)
    .map((test) => `${test.rule} ${length(test.clear)}`)
  return [capital(`${fit.governing.rule} governs`), ...others].join('; ')
}

/** For a sentence: `12 of 140 signal balls`. */
export function shareOfSignals(number: number, escape: PackageEscape): string {
  return `${number} of ${count(escape.signals.count, 'signal ball')}`
}
