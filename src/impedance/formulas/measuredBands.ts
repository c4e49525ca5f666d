import table from '../../../reference/bands/closedForms.json' with { type: 'json' }
import type { Ratio } from '../../units/quantity.ts'
import type { Band, Region } from './claim.ts'
import type { Regime } from './regimes.ts'

/** The bands of a formula's regions, in their order, in each regime. */
export type Bands = Readonly<Record<Regime, readonly Band[]>>

/** What the table holds of one region. */
interface MeasuredRegion {
  readonly sections: number
  /** Half-width of the band on the line impedance, or on the odd mode of a pair: a quarter more than the worst seen. */
  readonly error: Ratio
  /** Worst seen of the even mode; null for single traces. */
  readonly even: Ratio | null
}

type MeasuredForm = Readonly<Record<Regime, readonly MeasuredRegion[]>>

const FORMS: Readonly<Record<string, MeasuredForm | undefined>> = table.forms

/**
 * The bands of a formula from reference/bands/closedForms.json.
 *
 * A region that the table does not know yet claims an error of the whole value, so that an unmeasured formula is
 * never chosen.
 */
export function measuredBands(id: string, regions: readonly Region[]): Bands {
  const of = (regime: Regime): Band[] =>
    regions.map(({ note }, index) => bandOf(FORMS[id]?.[regime][index], regime, note))
  return { plain: of('plain'), fine: of('fine'), wide: of('wide') }
}

const LINES: Readonly<Record<Regime, string>> = {
  plain: 'plain fine lines',
  fine: 'fine lines',
  wide: 'lines of a wider range',
}

function bandOf(measured: MeasuredRegion | undefined, regime: Regime, note: string | undefined): Band {
  if (measured === undefined) return { error: 1, basis: 'not measured yet' }
  const { sections, error, even } = measured
  const about = [
    sections === 0
      ? `as elsewhere among ${LINES[regime]}, none of which was met here`
      : `a quarter above the worst of ${sections} ${LINES[regime]} against the field solution`,
    ...(even === null ? [] : [`of the odd mode; the even mode was within ${percent(even)} %`]),
  ].join(', ')
  return { error, basis: note === undefined ? about : `${about}; ${note}` }
}

function percent(ratio: Ratio): string {
  return (Math.ceil(ratio * 1000) / 10).toFixed(1)
}
