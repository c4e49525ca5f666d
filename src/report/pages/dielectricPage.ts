import { formatFrequency, formatLength, formatNumber, formatOhms, formatPercent } from '../../units/format.ts'
import type { LengthUnit } from '../../units/quantity.ts'
import type { Board } from '../../board/board.ts'
import type { ThicknessChoice } from '../../dielectric/thicknessChoice.ts'
import { thicknessCurve } from '../figures/thicknessCurve.ts'
import { CURVE_NOTE } from '../viewModel/sections/dielectric.ts'
import type { Fact } from '../viewModel/identity.ts'
import { figure } from '../viewModel/section.ts'
import type { Figure } from '../viewModel/section.ts'
import { capital, keepTogether, lengthRange, methodInSentence, ohmsWithBand } from '../viewModel/words.ts'
import { form } from './form.ts'
import type { AnswerQuantity, Form, FormState } from './form.ts'
import { layerOptions, widthSuggestion } from './lineFields.ts'
import { boardLinks, boardPath } from './pageFrame.ts'
import type { PageFrame } from './pageFrame.ts'

export interface DielectricPage {
  readonly page: PageFrame
  readonly title: string
  readonly form: Form
  readonly results: readonly DielectricResult[]
  readonly hasResults: boolean
}

export interface DielectricResult {
  readonly heading: string
  readonly quantity: AnswerQuantity
  readonly facts: readonly Fact[]
  readonly figure: Figure
}

/** A choice with the tolerance that its window was computed for. */
export interface AskedChoice {
  readonly choice: ThicknessChoice
  readonly tolerance: number
}

/** Which thickness meets the target: for a trace that is typed in, or for the lines of a net class. */
export function dielectricPage(
  name: string,
  board: Board,
  state: FormState,
  asked: readonly AskedChoice[],
  version: string,
): DielectricPage {
  const classes = board.classes.map((each) => ({ value: each.name, text: each.name }))
  const specs = [
    {
      name: 'class',
      label: 'Net class',
      hint: 'Brings its own width, gap, target and tolerance; leave the fields for those empty.',
      options: [{ value: '', text: 'none, one trace' }, ...classes],
    },
    {
      name: 'layer',
      label: 'Copper layer',
      hint: 'Of a class: every layer that its nets use, or this one. A single trace needs one.',
      options: [{ value: '', text: 'every layer of the class' }, ...layerOptions(board)],
    },
    {
      name: 'width',
      label: 'Trace width',
      hint: 'Without a class. Finished, at the foot, with its unit: 80 um, 3.2 mil.',
      suggestion: widthSuggestion(board),
    },
    { name: 'gap', label: 'Gap inside a pair', hint: 'Edge to edge; empty for a single trace.' },
    {
      name: 'target',
      label: 'Target impedance',
      hint: 'Without a class. Of a single trace, or differential of a pair: 50 ohm.',
      suggestion: '50 ohm',
    },
    {
      name: 'tolerance',
      label: 'Tolerance',
      hint: 'Without a class. Plus or minus, for the range of thickness: 10 %.',
      suggestion: '10 %',
    },
  ]
  return {
    page: {
      pageTitle: `Dielectric thickness for ${board.title}`,
      version,
      board: boardLinks(name, 'dielectric'),
    },
    title: board.title,
    form: form(boardPath(name, 'dielectric'), 'Find the thickness', specs, state),
    results: fromTheTop(asked).map((each, index) => result(each, index, board)),
    hasResults: asked.length > 0,
  }
}

function fromTheTop(asked: readonly AskedChoice[]): AskedChoice[] {
  return [...asked].sort((a, b) => a.choice.layer - b.choice.layer)
}

function result({ choice, tolerance }: AskedChoice, index: number, board: Board): DielectricResult {
  const unit = board.displayUnit
  const layerName = board.stackup.copper[choice.layer - 1]?.name ?? `layer ${choice.layer}`
  const id = `curve-${index + 1}`
  const gap = choice.gap === null ? '' : `, gap ${formatLength(choice.gap, unit)}`
  const line =
    choice.netClass === null
      ? 'Trace'
      : `${capital(choice.stretch === 'neck' ? 'neck' : 'main route')} of ${choice.netClass}`
  return {
    heading: keepTogether(`${line} on ${layerName}, ${formatLength(choice.width, unit)} wide${gap}`),
    quantity: quantity(choice, board),
    facts: [
      { label: 'Target', text: `${formatOhms(choice.target)} ± ${formatPercent(tolerance, 0)}` },
      {
        label: 'Dielectric that is varied',
        text: `${choice.dielectric}: between the trace and its nearest plane`,
      },
      {
        label: 'As it is',
        text: `${formatLength(choice.present.thickness, unit)}, ${formatOhms(choice.present.impedance)}`,
      },
      { label: 'Inside the tolerance', text: windowText(choice, unit) },
      ...permittivityFact(choice, board),
      { label: 'Fabricator’s thinnest', text: formatLength(board.fabrication.minDielectric, unit) },
    ].map((fact) => ({ label: fact.label, text: keepTogether(fact.text) })),
    figure: figure(
      id,
      `Impedance against the pressed thickness of ${choice.dielectric}, everything else as described. Changing it moves every other line beside it. ${CURVE_NOTE}`,
      thicknessCurve({ id, choice, tolerance, layerName, unit }),
    ),
  }
}

/** Of the dielectric that is varied; its thickness changes, its permittivity is taken to stay. */
function permittivityFact({ dielectric }: ThicknessChoice, { stackup }: Board): Fact[] {
  const layer = stackup.layers.find((each) => each.kind === 'dielectric' && each.name === dielectric)
  if (layer?.kind !== 'dielectric') return []
  const { relative, frequency } = layer.permittivity
  const assumed = layer.assumed.some(({ path }) => path.endsWith('.permittivity')) ? ' (assumed)' : ''
  return [
    {
      label: 'Its permittivity',
      text: `${formatNumber(relative)} at ${formatFrequency(frequency)}${assumed}`,
    },
  ]
}

/** An end of the range that was only the end of the search is said to be that. */
function windowText({ window, curve }: ThicknessChoice, unit: LengthUnit): string {
  if (window === null) return 'no range'
  const range = lengthRange(window.min, window.max, unit)
  const open = [
    ...(window.min <= (curve[0]?.thickness ?? 0) ? ['thinner was not tried'] : []),
    ...(window.max >= (curve.at(-1)?.thickness ?? Infinity) ? ['thicker was not tried'] : []),
  ]
  return open.length === 0 ? range : `${range}; ${open.join(', ')}`
}

function quantity(choice: ThicknessChoice, board: Board): AnswerQuantity {
  if (choice.thickness === null || choice.reached === null) {
    return {
      label: `Thickness of ${choice.dielectric}`,
      value: 'none',
      method: choice.reason ?? 'no thickness in the range meets the target',
      mark: null,
    }
  }
  const { impedance, band, method } = choice.reached
  return {
    label: `Thickness of ${choice.dielectric}, pressed`,
    value: keepTogether(formatLength(choice.thickness, board.displayUnit)),
    method: keepTogether(`gives ${ohmsWithBand(impedance, band)} by ${methodInSentence(method)}`),
    mark: null,
  }
}
