import type { NetClass } from '../board/nets.ts'
import { bracketRoot } from '../numerics/bracketRoot.ts'
import type { Assumption } from '../units/assumption.ts'
import type { Finding, Measure, Remedy } from './finding.ts'
import { folded, type Weighed } from './folded.ts'

/** What is judged: a number that passes up to a limit, at any value of the assumed input. */
export interface Judged {
  readonly netClass: NetClass
  readonly layer: number
  readonly package: string | null
  readonly nominal: number
  readonly limit: number
  readonly limitSource: string
  readonly figure: (value: number) => Measure
  /** At a multiple of the assumed input; null where it cannot be computed. */
  readonly at: (factor: number) => number | null
}

export interface AssumedInput {
  readonly assumption: Assumption
  /** Half-width of the plausible range, as a fraction of the value. */
  readonly range: number
  /** The input at a multiple of the value used. */
  readonly measure: (factor: number) => Measure
}

/** How near the factor is found at which a verdict turns. */
const FACTOR_TOLERANCE = 1e-6

/**
 * A finding for each assumption that turns a verdict inside its range. Of the verdicts that one turns, the
 * closest to its limit speaks for all.
 */
export function turnedVerdicts(
  pairs: readonly { readonly input: AssumedInput; readonly judged: Judged }[],
): Finding[] {
  const turned = pairs.flatMap(({ input, judged }) => weigh(input, judged))
  return folded(turned, ({ assumed }) => assumed.map(({ path, quantity }) => `${path}|${quantity}`).join())
}

function weigh(input: AssumedInput, judged: Judged): Weighed[] {
  const { nominal, limit, figure, at, netClass } = judged
  const ends = [1 - input.range, 1 + input.range].map((factor) => ({ factor, value: at(factor) }))
  const flipped = ends.find(({ value }) => value !== null && value > limit !== nominal > limit)
  if (flipped === undefined) return []
  const finding: Weighed['finding'] = {
    code: 'assumed-input-decides',
    severity: 'warning',
    subject: {
      kind: 'class',
      name: netClass.name,
      layer: judged.layer,
      package: judged.package,
      alike: [],
    },
    measured: figure(nominal),
    limit: { ...figure(limit), what: 'at most' },
    limitSource: judged.limitSource,
    details: [
      input.measure(1),
      ...ends.flatMap(({ factor, value }) =>
        value === null
          ? []
          : [input.measure(factor), { ...figure(value), what: `then ${figure(value).what}` }],
      ),
    ],
    assumed: [input.assumption],
  }
  const remedies = (): Remedy[] => [stateIt(input, judged, flipped.factor)]
  return [{ finding, remedies, weight: limit / Math.abs(nominal - limit), name: nameOf(judged) }]
}

/** With the value at which the verdict turns. */
function stateIt({ assumption, measure }: AssumedInput, judged: Judged, flipped: number): Remedy {
  const { nominal, limit, figure, at } = judged
  const turn = bracketRoot((factor) => (at(factor) ?? nominal) - limit, 1, flipped, {
    tolerance: FACTOR_TOLERANCE,
  })
  return {
    action: `state the ${assumption.quantity} in the description; the verdict turns at`,
    value: measure(turn),
    result: figure(at(turn) ?? limit),
  }
}

function nameOf({ netClass, layer, package: pack }: Judged): string {
  return `class ${netClass.name} on layer ${layer}${pack === null ? '' : ` at ${pack}`}`
}
