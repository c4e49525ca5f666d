/** A form as the views print it: each field with its hint, what was typed, and what is wrong with it. */
export interface Form {
  readonly action: string
  readonly fields: readonly Field[]
  readonly submit: string
  readonly problems: Problems | null
}

export interface Field {
  readonly id: string
  readonly name: string
  readonly label: string
  readonly hint: string
  readonly value: string
  readonly isSelect: boolean
  readonly options: readonly Option[]
  readonly problem: string | null
  /** Ids of hint and problem, for `aria-describedby`. */
  readonly describedBy: string
}

export interface Option {
  readonly value: string
  readonly text: string
  readonly selected: boolean
}

/** Everything wrong at once, above the form, each with a link to its field. */
export interface Problems {
  readonly heading: string
  readonly items: readonly { readonly href: string; readonly text: string }[]
}

/** Typed values by field name, and problems by field name; a problem of no field has the name ''. */
export interface FormState {
  readonly typed: Readonly<Record<string, string>>
  readonly problems: readonly FieldProblem[]
}

export interface FieldProblem {
  readonly field: string
  readonly text: string
}

export interface FieldSpec {
  readonly name: string
  readonly label: string
  readonly hint: string
  /** Value shown when nothing was typed yet. */
  readonly suggestion?: string
  readonly options?: readonly { readonly value: string; readonly text: string }[]
}

export function form(action: string, submit: string, specs: readonly FieldSpec[], state: FormState): Form {
  const untouched = Object.keys(state.typed).length === 0
  const fields = specs.map((spec) => {
    const id = `field-${spec.name.replaceAll('_', '-')}`
    const value = state.typed[spec.name] ?? (untouched ? (spec.suggestion ?? '') : '')
    const problem = state.problems.find((each) => each.field === spec.name)?.text ?? null
    const options = optionsWith(spec.options ?? [], value)
    return {
      id,
      name: spec.name,
      label: spec.label,
      hint: spec.hint,
      value,
      isSelect: spec.options !== undefined,
      options,
      problem,
      describedBy: problem === null ? `${id}-hint` : `${id}-hint ${id}-problem`,
    }
  })
  return { action, submit, fields, problems: problemsOf(fields, state.problems) }
}

/** What was asked for stays in the list, even where it is none of the offers. */
function optionsWith(offers: NonNullable<FieldSpec['options']>, value: string): Option[] {
  const known = value === '' || offers.some((offer) => offer.value === value)
  const all = known ? offers : [{ value, text: value }, ...offers]
  return all.map((option) => ({ ...option, selected: option.value === value }))
}

function problemsOf(fields: readonly Field[], problems: readonly FieldProblem[]): Problems | null {
  if (problems.length === 0) return null
  return {
    heading:
      problems.length === 1
        ? 'One thing has to be put right'
        : `${problems.length} things have to be put right`,
    items: problems.map(({ field, text }) => {
      const own = fields.find((each) => each.name === field)
      return {
        href: own === undefined ? '#content' : `#${own.id}`,
        text: own === undefined ? text : `${own.label}: ${text}`,
      }
    }),
  }
}

/** `found 0.1 without a unit; write 0.1 mm, not 0.1`. */
export function refusalText(found: string, allowed: string): string {
  return `${found === 'an empty text' ? 'nothing is filled in' : `found ${found}`}; allowed: ${allowed}`
}

/** A page's answer below its form. */
export interface AnswerQuantity {
  readonly label: string
  readonly value: string
  readonly method: string
  readonly mark: string | null
}
