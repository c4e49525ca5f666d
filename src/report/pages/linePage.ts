import {
  formatCapacitancePerLength,
  formatDelayPerLength,
  formatFrequency,
  formatInductancePerLength,
  formatLoss,
  formatNumber,
  formatOhms,
} from '../../units/format.ts'
import type { Board } from '../../board/board.ts'
import type { Estimate, LineImpedance, Modes } from '../../impedance/estimate.ts'
import type { FieldPicture } from '../../impedance/field/fieldPicture.ts'
import type { ProcessSpread } from '../../tolerance/processSpread.ts'
import type { Fact } from '../viewModel/identity.ts'
import type { Figure } from '../viewModel/section.ts'
import { limitsText } from '../viewModel/sections/methods.ts'
import { table } from '../viewModel/table.ts'
import type { CellText, Table } from '../viewModel/table.ts'
import {
  capital,
  keepTogether,
  list,
  methodInSentence,
  ohmsWithBand,
  signedPercent,
  someOf,
} from '../viewModel/words.ts'
import { form } from './form.ts'
import type { AnswerQuantity, Form, FormState } from './form.ts'
import { lineFigure } from './lineFigure.ts'
import { layerOptions, widthSuggestion } from './lineFields.ts'
import { boardLinks, boardPath } from './pageFrame.ts'
import type { PageFrame } from './pageFrame.ts'
import { processTable } from './processTable.ts'

export interface LinePage {
  readonly page: PageFrame
  readonly title: string
  readonly form: Form
  readonly result: LineResult | null
}

export interface LineResult {
  readonly quantity: AnswerQuantity
  readonly facts: readonly Fact[]
  readonly process: Table
  readonly methods: Table
  readonly figure: Figure
  readonly assumed: string | null
}

/** A line that was asked for, with all that is said of it. */
export interface AskedLine {
  readonly line: LineImpedance
  /** Null where the field solution does not reach. */
  readonly picture: FieldPicture | null
  /** Null where the line does not come out at an end of its tolerances. */
  readonly process: ProcessSpread | null
}

/** One line of the stackup: a form, and below it what every method says, the chosen one first. */
export function linePage(
  name: string,
  board: Board,
  state: FormState,
  asked: AskedLine | null,
  version: string,
): LinePage {
  const specs = [
    {
      name: 'layer',
      label: 'Copper layer',
      hint: 'Signal and mixed layers of this stackup.',
      options: layerOptions(board),
    },
    {
      name: 'width',
      label: 'Trace width',
      hint: 'Finished, at the foot, with its unit: 80 um, 3.2 mil.',
      suggestion: widthSuggestion(board),
    },
    { name: 'gap', label: 'Gap inside a pair', hint: 'Edge to edge; leave empty for a single trace.' },
    {
      name: 'coplanar_gap',
      label: 'Gap to coplanar ground',
      hint: 'On both outer sides in the same layer; leave empty for none.',
    },
    {
      name: 'partner_layer',
      label: 'Layer of a broadside partner',
      hint: 'For a pair one above the other; it excludes the gap.',
      options: [{ value: '', text: 'none' }, ...layerOptions(board)],
    },
  ]
  return {
    page: { pageTitle: `One line of ${board.title}`, version, board: boardLinks(name, 'line') },
    title: board.title,
    form: form(boardPath(name, 'line'), 'Compute', specs, state),
    result: asked === null ? null : lineResult(asked, board),
  }
}

function lineResult({ line, picture, process }: AskedLine, board: Board): LineResult {
  const { chosen, section } = line
  const pair = chosen.modes.kind === 'pair'
  return {
    quantity: {
      label: pair ? 'Differential impedance' : 'Impedance',
      value: keepTogether(ohmsWithBand(line.impedance, chosen.claimedError)),
      method: keepTogether(`by ${methodInSentence(chosen.method.title)}; band: ${chosen.errorBasis}`),
      mark: chosen.violations.length > 0 ? 'outside its limits' : null,
    },
    facts: facts(line, board).map(({ label, text }) => ({ label, text: keepTogether(text) })),
    process: processTable(process, line.impedance),
    methods: methodTable(line),
    figure: lineFigure(line, picture, board.displayUnit),
    assumed:
      section.assumed.length === 0
        ? null
        : `Rests on assumed values: ${someOf(
            section.assumed.map((each) => `${each.quantity} (${each.value})`),
            6,
          )}.`,
  }
}

function facts(line: LineImpedance, board: Board): Fact[] {
  const unit = board.displayUnit
  const { section, loss } = line
  const pair = line.chosen.modes.kind === 'pair'
  const planes = [section.planeBelow, section.planeAbove].flatMap((plane) =>
    plane === null ? [] : [`${plane.layerName} (${plane.net ?? 'no net'})`],
  )
  return [
    { label: 'Reference', text: list(planes) },
    ...(line.common === null ? [] : [{ label: 'Common-mode impedance', text: formatOhms(line.common) }]),
    { label: pair ? 'Delay, odd mode' : 'Delay', text: formatDelayPerLength(line.delay, unit) },
    {
      label: pair ? 'Effective permittivity, odd mode' : 'Effective permittivity',
      text: `${formatNumber(line.effectivePermittivity)} at ${formatFrequency(line.frequency)}`,
    },
    {
      label: pair ? 'Differential capacitance' : 'Capacitance',
      text: formatCapacitancePerLength(line.capacitance),
    },
    {
      label: pair ? 'Differential inductance' : 'Inductance',
      text: formatInductancePerLength(line.inductance),
    },
    {
      label: `Loss at ${formatFrequency(loss.frequency)}`,
      text: `conductor ${formatLoss(loss.conductor, unit)}, dielectric ${formatLoss(loss.dielectric, unit)}`,
    },
    { label: 'Loss computed from', text: loss.method },
    ...(section.emptyLayers.length === 0
      ? []
      : [{ label: 'Copper counted as absent', text: list(section.emptyLayers) }]),
  ]
}

function methodTable({ chosen, others, impedance }: LineImpedance): Table {
  return table({
    id: 'methods-table',
    caption: 'Every method that applies, the chosen one first',
    columns: ['Method', '>Impedance', '#Against the chosen', 'Modes', '>Limits', '>Source'],
    rows: [chosen, ...others].map((estimate) => methodRow(estimate, impedance, estimate === chosen)),
  })
}

function methodRow(estimate: Estimate, reference: number, isChosen: boolean): CellText[] {
  const { method, violations } = estimate
  const ohms = verdictOhms(estimate.modes)
  const broken = violations.map(
    (each) =>
      `${each.quantity} = ${formatNumber(each.value)}, limits ${formatNumber(each.min)} to ${formatNumber(each.max)}`,
  )
  return [
    { text: method.title, mark: isChosen ? 'chosen' : method.ownFit ? 'own fit' : null },
    { text: ohmsWithBand(ohms, estimate.claimedError), note: estimate.errorBasis },
    isChosen ? '–' : signedPercent(ohms / reference - 1),
    modesText(estimate.modes),
    broken.length === 0
      ? { text: limitsText(method.limits), note: 'all kept' }
      : { text: limitsText(method.limits), mark: 'left', notes: broken.map(capital) },
    method.source,
  ]
}

/** Line impedance, or differential: twice the odd mode. */
function verdictOhms(modes: Modes): number {
  return modes.kind === 'single' ? modes.line.impedance : 2 * modes.odd.impedance
}

function modesText(modes: Modes): string {
  if (modes.kind === 'single') return 'single'
  return `odd ${formatOhms(modes.odd.impedance)}, even ${formatOhms(modes.even.impedance)}`
}
