import { formatFrequency, formatLength, formatNumber, formatPercent } from '../units/format.ts'
import type { AnalysisSettings } from './board.ts'
import { Notes, type Completed, type ReadingContext } from './notes.ts'
import { referenceValue } from './referenceValue.ts'
import type { AnalysisText } from './schema/boardSchema.ts'

const FREQUENCY = referenceValue('1 GHz', 'frequency')
const COMPARISON = referenceValue('0.5 um', 'length')
const REFLECTION = referenceValue('5 %', 'ratio')
const ELECTRICAL_LENGTH = 1 / 6
const CROSSTALK = referenceValue('5 %', 'ratio')

/** What the verdicts use: as described, else the usual values, noted as assumed. */
export function completeAnalysis(
  text: AnalysisText | null,
  context: ReadingContext,
): Completed<AnalysisSettings> {
  const notes = new Notes(context)
  const said = text ?? {}
  const take = (
    key: keyof AnalysisText,
    words: string,
    fallback: number,
    printed: string,
    source: string,
  ): number => {
    const stated = said[key]
    if (stated === undefined) notes.assume(['analysis', key], words, printed, source)
    return stated ?? fallback
  }
  return notes.keep({
    frequency: take(
      'frequency',
      'frequency at which impedance is stated',
      FREQUENCY,
      formatFrequency(FREQUENCY),
      'common practice, no source',
    ),
    comparisonTolerance: take(
      'comparison_tolerance',
      'difference up to which two lengths are equal when a channel is filled',
      COMPARISON,
      formatLength(COMPARISON, context.displayUnit),
      'common practice, no source: published channels close to the micrometre',
    ),
    reflectionLimit: take(
      'reflection_limit',
      'largest reflection of a neck that passes',
      REFLECTION,
      formatPercent(REFLECTION, 0),
      'that of an impedance off by 10 %: (1.1 − 1)/(1.1 + 1)',
    ),
    electricalLengthLimit: take(
      'electrical_length_limit',
      'share of the edge in space above which a neck is electrically long',
      ELECTRICAL_LENGTH,
      formatNumber(ELECTRICAL_LENGTH),
      'one sixth of the edge, rule of textbooks (H. Johnson, M. Graham, High-Speed Digital Design, 1993)',
    ),
    crosstalkLimit: take(
      'crosstalk_limit',
      'largest near-end noise of the traces beside a neck, over their swing',
      CROSSTALK,
      formatPercent(CROSSTALK, 0),
      'common practice, no source: as much of the swing as a reflection may take',
    ),
    assumed: notes.assumptions,
  })
}
