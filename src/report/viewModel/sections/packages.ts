import type { Ball, Package } from '../../../board/packages.ts'
import type { ChannelFit, PackageEscape } from '../../../escape/escape.ts'
import { channelPlan } from '../../figures/channelPlan.ts'
import { packageGrid } from '../../figures/packageGrid.ts'
import { obstacleName } from '../answer.ts'
import { chosenPlan, signalLayers } from '../context.ts'
import type { ReportContext } from '../context.ts'
import { closedLayers, openChannels } from '../openChannels.ts'
import { figure, section, slug } from '../section.ts'
import type { Figure, Section } from '../section.ts'
import { groupBy, table } from '../table.ts'
import type { CellText, Table } from '../table.ts'
import { packageWishes } from './packageWishes.ts'
import { ABSENT, lengthRange, list, someOf, technologyName } from '../words.ts'

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
    tables: [
      packageTable(context),
      ...packageWishes(context),
      ...pairs.map(({ escape }) => channelTable(escape, context)),
    ],
  })
}

function gridFigure(pack: Package, escape: PackageEscape, { layerName, unit }: ReportContext): Figure {
  const id = `grid-${slug(pack.name)}`
  const plan = chosenPlan(escape)
  const caption = `${pack.name} seen from the top of the board: what each ball is for, and the layer on which its net leaves, planned with ${technologyName(escape.chosen)}. Places are to scale; the circles mark balls and are larger than lands.`
  const drawn = packageGrid({
    id,
    package: pack,
    exitLayers: new Map((plan?.routes ?? []).map((route) => [route.ball, route.exitLayer])),
    unescaped: new Set((plan?.unescaped ?? []).map((each) => each.ball)),
    layerName,
    unit,
  })
  return figure(id, caption, drawn)
}

/** One drawing for each kind of obstacle: the tightest straight channel that the plan runs through. */
function channelFigures(escape: PackageEscape, { layerName, packageNamed, unit }: ReportContext): Figure[] {
  const plan = chosenPlan(escape)
  const used = new Set(plan === undefined ? [] : signalLayers(plan))
  const open = openChannels(packageNamed(escape.package), escape.channels)
  const straight = open.filter((fit) => fit.direction !== 'diagonal')
  const relevant = straight.filter((fit) => used.has(fit.layer))
  const groups = groupBy(relevant.length > 0 ? relevant : straight, (fit) => fit.obstacle)
  return groups.map(([first, ...rest]) => {
    const fit = rest.reduce(
      (tightest, each) => (each.remainder < tightest.remainder ? each : tightest),
      first,
    )
    const id = `channel-${slug(escape.package)}-${slug(fit.obstacle)}`
    const place = `past ${obstacleName(fit)} on ${layerName(fit.layer)}`
    const caption = `${escape.package}, channel ${fit.direction} ${place}, for ${fit.netClass}: the tightest of its kind that the plan uses. To scale; the remainder is drawn in one piece.`
    return figure(id, caption, channelPlan({ id, fit, layerName: layerName(fit.layer), unit }))
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
      `${pack.rows}\u00a0×\u00a0${pack.columns}${pack.onGrid ? '' : ', not on a grid'}`,
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

/** One row for each geometry: which classes pass it, and with what left over, stands in the row. */
function channelTable(escape: PackageEscape, context: ReportContext): Table {
  const { length, layerName, packageNamed } = context
  const pack = packageNamed(escape.package)
  // A width that counts as equal to nothing is none.
  const least = context.review.board.analysis.comparisonTolerance
  const closed = closedLayers(pack, escape.channels).map(layerName)
  const key = (fit: ChannelFit): string =>
    JSON.stringify([fit.obstacle, fit.innerPads, fit.span, fit.governing])
  return table({
    id: `channels-${slug(escape.package)}`,
    caption: `What the channels of ${escape.package} let through`,
    columns: [
      'Between',
      'Layers',
      '#Centre to centre',
      '>Clear for traces, by rule',
      '#Widest single',
      '#Widest of two',
      '>What passes, by class',
    ],
    rows: groupBy(openChannels(pack, escape.channels), key).map((group) => {
      const [fit] = group
      const two = group.flatMap(({ widestTwo }) =>
        widestTwo === null || widestTwo < least ? [] : [widestTwo],
      )
      return [
        { text: obstacleName(fit), note: list([...new Set(group.map((each) => each.direction))]) },
        [...new Set(group.map((each) => layerName(each.layer)))].join(', '),
        length(fit.span),
        { text: length(fit.governing.clear), notes: clearances(fit, context) },
        fit.widestOne === null || fit.widestOne < least ? ABSENT : length(fit.widestOne),
        two.length === 0 ? ABSENT : lengthRange(Math.min(...two), Math.max(...two), context.unit),
        { text: '', notes: passes(group, context) },
      ]
    }),
    whenEmpty: 'This package has no channels.',
    notes: [
      ...(closed.length === 0
        ? []
        : [`Left out: ${list(closed)}, where the description lets no net of ${escape.package} leave.`]),
      'Clear: centre to centre, less the obstacle, less twice the clearance. The smallest of the rules governs. Two traces stand apart by the gap of their class.',
      `Lengths that differ by no more than ${length(context.review.board.analysis.comparisonTolerance)} count as equal.`,
    ],
  })
}

/** `1 of 0.095 mm, remainder 0.165 mm: memory data, clock`. */
function passes(group: readonly ChannelFit[], { length }: ReportContext): string[] {
  const key = (fit: ChannelFit): string => JSON.stringify([fit.width, fit.traces, fit.remainder])
  return groupBy(group, key).map((alike) => {
    const [fit] = alike
    const left =
      fit.traces === 0
        ? `too narrow by ${length(Math.abs(fit.remainder))}`
        : `remainder ${length(Math.max(fit.remainder, 0))}`
    const classes = [...new Set(alike.map((each) => each.netClass))]
    return `${fit.traces === 0 ? 'none' : fit.traces} of ${length(fit.width)}, ${left}: ${someOf(classes, 6)}`
  })
}

function clearances(fit: ChannelFit, { length }: ReportContext): string[] {
  const others = fit.tests
    .filter((test) => test.rule !== fit.governing.rule)
    .map((test) => `${test.rule} ${length(test.clear)}`)
  return [`${fit.governing.rule} governs`, ...others]
}
