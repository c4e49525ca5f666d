import type { Metres } from '../../units/quantity.ts'

/** A row or column of places on which something stands, or from which a net starts. */
export interface SiteLine {
  readonly at: Metres
  /** From the line to the nearest edge of a trace that runs along it: the largest of its places. */
  readonly reach: Metres
  /** The smallest of its places at which something stands. */
  readonly leastReach: Metres
}

/** A line along which traces run. */
export interface LaneLine {
  readonly at: Metres
  /** Index of the site line; −1 for a lane in a street between two of them. */
  readonly site: number
}

export interface TraceRules {
  readonly width: Metres
  /** Edge to edge, to a trace of another net. */
  readonly gap: Metres
  /** Two lengths that differ by no more than this are equal. */
  readonly tolerance: Metres
}

/**
 * The lines of one direction, in order: every site line, and in each street between two neighbouring ones as
 * many lanes as whole traces fit,
 *
 *     ⌊(clear + gap + tolerance) / (width + gap)⌋,
 *
 * centred in what is clear. Where the largest places of both lines leave none, the smallest count: such lanes
 * are closed beside the larger places, and open elsewhere. With `packed`, neighbouring lanes keep exactly the trace gap, so that a
 * pair may use two of them; otherwise the spare room is shared out equally. Any two lines are at least a
 * width and a gap apart (less the tolerance), so traces on different lines keep clear of each other.
 */
export function laneLines(sites: readonly SiteLine[], rules: TraceRules, packed: boolean): LaneLine[] {
  return sites.flatMap((site, index) => {
    const own: LaneLine = { at: site.at, site: index }
    const next = sites[index + 1]
    if (next === undefined) return [own]
    return [own, ...lanesBetween(site, next, rules, packed).map((at) => ({ at, site: -1 }))]
  })
}

/** Whole traces between two site lines. */
function tracksBetween(left: SiteLine, right: SiteLine, rules: TraceRules): number {
  const { width, gap, tolerance } = rules
  const clear = right.at - left.at - outermost(left.reach, rules) - outermost(right.reach, rules)
  return Math.max(0, Math.floor((clear + gap + tolerance) / (width + gap)))
}

function lanesBetween(left: SiteLine, right: SiteLine, rules: TraceRules, packed: boolean): Metres[] {
  const tracks = tracksBetween(left, right, rules)
  if (tracks > 0) return lanesAmong(left, right, tracks, rules, packed)
  const [least, other] = [left, right].map((line): SiteLine => ({ ...line, reach: line.leastReach }))
  return least === undefined || other === undefined
    ? []
    : lanesAmong(least, other, tracksBetween(least, other, rules), rules, packed)
}

function lanesAmong(
  left: SiteLine,
  right: SiteLine,
  count: number,
  rules: TraceRules,
  packed: boolean,
): Metres[] {
  const { width, gap } = rules
  const low = left.at + outermost(left.reach, rules)
  const clear = right.at - outermost(right.reach, rules) - low
  const spare = clear - count * width - (count - 1) * gap
  const share = packed ? 0 : Math.max(0, spare / (count + 1))
  const margin = packed ? spare / 2 : Math.min(spare / 2, share)
  return Array.from({ length: count }, (_, index) => low + margin + width / 2 + index * (width + gap + share))
}

/** A net that starts on a site line runs along it for a while: traces beside it keep their gap to that as well. */
function outermost(reach: Metres, { width, gap }: TraceRules): Metres {
  return Math.max(reach, width / 2 + gap)
}
