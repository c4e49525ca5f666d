import { formatOhms } from '../../../units/format.ts'
import type { ThicknessChoice } from '../../../dielectric/thicknessChoice.ts'
import { thicknessCurve } from '../../figures/thicknessCurve.ts'
import type { ReportContext } from '../context.ts'
import { figure, section, slug } from '../section.ts'
import type { Figure, Section } from '../section.ts'
import { byRanks, groupBy, table } from '../table.ts'
import type { CellText, Table } from '../table.ts'
import { ABSENT, capital, lengthRange, ohmsWithBand, target } from '../words.ts'

/** Curves drawn; the table has every line. */
const MOST_CURVES = 3

/** Which dielectric thickness would bring each fine trace to its target. */
export function dielectricSection(context: ReportContext): Section {
  const { thicknesses } = context.review
  return section({
    id: 'dielectric',
    title: 'Dielectric thickness for the fine traces',
    paragraphs: [
      'For each line of fixed width, the pressed thickness of the dielectric between trace and nearest plane that brings it to target, with everything else as described. Changing it moves every other line on the layer.',
    ],
    tables: [choiceTable(thicknesses, context)],
    laterFigures: farthest(thicknesses).map((choice) => curveFigure(choice, context)),
  })
}

function choiceTable(choices: readonly ThicknessChoice[], context: ReportContext): Table {
  return table({
    id: 'thickness-table',
    caption: 'Thickness that meets the target',
    columns: [
      '>Line',
      'Target',
      'Dielectric',
      'As it is',
      '#Meets the target at',
      '#Inside the tolerance',
      '>Then',
    ],
    rows: inOrder(choices, context).map((choice) => choiceRow(choice, context)),
    whenEmpty: 'Every line in use was solved for its target; no thickness needs choosing.',
  })
}

/** By class as described, necks before main routes, from the top layer down. */
function inOrder(choices: readonly ThicknessChoice[], { review }: ReportContext): ThicknessChoice[] {
  const classes = review.board.classes.map((each) => each.name)
  return [...choices].sort(
    byRanks(({ netClass, stretch, layer }) => [
      netClass === null ? -1 : classes.indexOf(netClass),
      stretch === 'neck' ? 0 : 1,
      layer,
    ]),
  )
}

function choiceRow(
  choice: ThicknessChoice,
  { length, layerName, classNamed, unit }: ReportContext,
): CellText[] {
  const netClass = choice.netClass === null ? undefined : classNamed(choice.netClass)
  const gap = choice.gap === null ? '' : `, gap ${length(choice.gap)}`
  return [
    {
      text: `${choice.netClass ?? 'Line'} on ${layerName(choice.layer)}`,
      note: `${choice.stretch === 'neck' ? 'neck' : 'main route'}, ${length(choice.width)} wide${gap}`,
    },
    netClass === undefined ? formatOhms(choice.target) : target(choice.target, netClass.tolerance),
    choice.dielectric,
    { text: length(choice.present.thickness), note: formatOhms(choice.present.impedance) },
    choice.thickness === null ? 'none' : length(choice.thickness),
    choice.window === null ? ABSENT : lengthRange(choice.window.min, choice.window.max, unit),
    choice.reached === null
      ? (choice.reason ?? ABSENT)
      : {
          text: ohmsWithBand(choice.reached.impedance, choice.reached.band),
          note: choice.reached.method,
        },
  ]
}

/** Of each class the line farthest from its target now, and of those the farthest few. */
function farthest(choices: readonly ThicknessChoice[]): ThicknessChoice[] {
  const off = (choice: ThicknessChoice): number => Math.abs(choice.present.impedance / choice.target - 1)
  const worst = groupBy(choices, (choice) => choice.netClass ?? '').map(([first, ...rest]) =>
    rest.reduce((most, each) => (off(each) > off(most) ? each : most), first),
  )
  const sorted = worst.sort((a, b) => off(b) - off(a))
  // Classes with the same line and target have the same curve.
  const distinct = groupBy(sorted, ({ layer, width, gap, target }) =>
    JSON.stringify([layer, width, gap, target]),
  )
  return distinct.map(([first]) => first).slice(0, MOST_CURVES)
}

/** What the curve is, printed under each. */
export const CURVE_NOTE =
  'The curve is the closed form, scaled to the chosen method at the marks and to field solutions over the range.'

function curveFigure(choice: ThicknessChoice, context: ReportContext): Figure {
  const id = `curve-${slug(choice.netClass ?? 'line')}`
  const netClass = choice.netClass === null ? undefined : context.classNamed(choice.netClass)
  const layerName = context.layerName(choice.layer)
  const line = `${capital(choice.stretch === 'neck' ? 'neck' : 'main route')}${choice.netClass === null ? '' : ` of ${choice.netClass}`} on ${layerName}`
  const caption = `${line}: impedance against the pressed thickness of ${choice.dielectric}, everything else as described. ${CURVE_NOTE}`
  const tolerance = netClass?.tolerance ?? 0
  return figure(id, caption, thicknessCurve({ id, choice, tolerance, layerName, unit: context.unit }))
}
