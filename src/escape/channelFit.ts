import type { Metres } from '../units/quantity.ts'
import type { ClearanceRule } from './clearanceRules.ts'
import type { ChannelFit, ChannelTest } from './escape.ts'

export interface Channel {
  /** Centre to centre of the two obstacles. */
  readonly span: Metres
  /** Every rule that keeps a trace off the obstacles. */
  readonly rules: readonly ClearanceRule[]
  readonly width: Metres
  readonly traceGap: Metres
  /** Two lengths that differ by no more than this are equal. */
  readonly tolerance: Metres
}

export type ChannelAnswer = Pick<
  ChannelFit,
  'tests' | 'governing' | 'traces' | 'remainder' | 'widestOne' | 'widestTwo'
>

/**
 * How many equal traces pass between two equal obstacles:
 *
 *     clear = span − d − 2 c,    traces = ⌊(clear + s + tolerance) / (w + s)⌋
 *
 * for obstacle diameter d and clearance c of the rule that leaves least, trace width w and gap s. The
 * last trace is not charged a gap. Altera AN 114 gives the same as what one, two and three traces need:
 * 2 s + w, 3 s + 2 w, 4 s + 3 w (where c = s; from memory). Published widths often close to the micron:
 * hence the tolerance and the remainder.
 *
 * Throws RangeError unless the width is positive, the gap and tolerance not negative and a rule given.
 */
export function fitChannel(channel: Channel): ChannelAnswer {
  const { span, rules, width: w, traceGap: s, tolerance } = channel
  if (!(w > 0)) throw new RangeError(`a trace needs a positive width, got ${w} m`)
  if (!(s >= 0)) throw new RangeError(`the gap between traces must not be negative, got ${s} m`)
  if (!(tolerance >= 0)) throw new RangeError(`the tolerance must not be negative, got ${tolerance} m`)
  const tests = rules.map((rule): ChannelTest => ({
    rule: rule.rule,
    obstacleDiameter: rule.obstacleDiameter,
    clearance: rule.clearance,
    clear: span - rule.obstacleDiameter - 2 * rule.clearance,
  }))
  const governing = tests.reduce<ChannelTest | null>(
    (least, test) => (least === null || test.clear < least.clear ? test : least),
    null,
  )
  if (governing === null) throw new RangeError('a channel needs at least one clearance rule')
  const { clear } = governing
  const traces = Math.max(0, Math.floor((clear + s + tolerance) / (w + s)))
  return {
    tests,
    governing,
    traces,
    remainder: clear - lengthNeeded(Math.max(traces, 1), w, s),
    widestOne: clear > 0 ? clear : null,
    widestTwo: clear > s ? (clear - s) / 2 : null,
  }
}

function lengthNeeded(traces: number, width: Metres, gap: Metres): Metres {
  return traces * width + (traces - 1) * gap
}
