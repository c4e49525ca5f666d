import { bracketRoot } from '../numerics/bracketRoot.ts'
import type { NeckCase } from '../signal/neckReflection.ts'
import type { NetSection } from '../signal/netSignal.ts'
import type { Metres, Ohms, Ratio } from '../units/quantity.ts'
import { boardIndex } from './boardIndex.ts'
import type { FindingContext } from './context.ts'
import { caseOf, narrowSections, triedPeak, type NeckEnd } from './neckEnds.ts'
import { tryLine } from './trials.ts'

/** A remedy must pass, not touch: it is solved for this share of the limit. */
const SAFE_SIDE: Ratio = 0.998
/** Share of the way: a remedy is drawn to a coarser grid. */
const CLOSE: Ratio = 1e-5

/** The neck and its dog-bone at another width; null where the stackup cannot carry it. */
export function atWidth(context: FindingContext, neck: NeckEnd, width: Metres): NeckCase | null {
  const sections = narrowSections(neck).map((section) => {
    const entry = context.lines.neck(neck.netClass.name, section.layer, neck.end.package, section.gap)
    const request = {
      layer: section.layer,
      width,
      gap: section.gap,
      coplanarGap: null,
      broadsideLayer: null,
      loading: entry?.loaded?.ratio ?? 1,
    }
    const line = tryLine(context, neck.netClass, request)
    return line && { impedance: line.impedance, delay: (section.length ?? 0) * line.delay }
  })
  const lines = sections.filter((section) => section !== null)
  return lines.length < sections.length ? null : { ...caseOf(neck), sections: lines }
}

/**
 * `atWidth` for a search between two widths: parabolas through three of them, over the logarithm of the width, because
 * every width asked of the stages is a field to solve. What is found has to be tried with `atWidth`.
 */
export function betweenWidths(
  context: FindingContext,
  neck: NeckEnd,
  from: Metres,
  to: Metres,
): (width: Metres) => NeckCase | null {
  const middle = Math.sqrt(from * to)
  const [first, second, last] = [from, middle, to].map((width) => atWidth(context, neck, width))
  if (!first || !second || !last || from === to) return (width) => atWidth(context, neck, width)
  return (width) => {
    const place = Math.log(width / from) / Math.log(to / from)
    const through = (of: (section: NeckCase['sections'][number]) => number): number[] =>
      second.sections.map((section, index) =>
        parabola(
          of(first.sections[index] ?? section),
          of(section),
          of(last.sections[index] ?? section),
          place,
        ),
      )
    const impedances = through(({ impedance }) => impedance)
    const delays = through(({ delay }) => delay)
    const sections = impedances.map((impedance, index) => ({ impedance, delay: delays[index] ?? 0 }))
    return { ...second, sections }
  }
}

/** Through values at 0, 1/2 and 1. */
function parabola(atZero: number, atHalf: number, atOne: number, place: number): number {
  return (
    atZero * (1 - place) * (1 - 2 * place) +
    4 * atHalf * place * (1 - place) +
    atOne * place * (2 * place - 1)
  )
}

/** The neck at another length from the ball, its dog-bone as it is; null where that is longer. */
export function atLength(neck: NeckEnd, length: Metres): NeckCase | null {
  const stretch = narrowSections(neck)
  const dogBone = lengthOf(stretch.filter(({ kind }) => kind === 'dog-bone'))
  const own = lengthOf(stretch.filter(({ kind }) => kind === 'neck'))
  if (!(length >= dogBone && own > 0)) return null
  const { sections, ...rest } = caseOf(neck)
  const shortened = sections.map((section, index) =>
    stretch[index]?.kind === 'neck'
      ? { ...section, delay: (section.delay * (length - dogBone)) / own }
      : section,
  )
  return { ...rest, sections: shortened }
}

/** The neck and its main route on another layer of the table, as long as it is; null where the table has none. */
export function onOtherLayer(context: FindingContext, neck: NeckEnd, layer: number): NeckCase | null {
  const { end, netClass } = neck
  const entry = context.lines.neck(netClass.name, layer, end.package, end.gap)
  const line = entry?.runs
  const main = context.lines.main(netClass.name, layer)?.impedance
  if (!line || !main) return null
  const { sections, ...rest } = caseOf(neck)
  const stretch = narrowSections(neck)
  const moved = sections.map((section, index) =>
    stretch[index]?.kind === 'neck'
      ? { impedance: line.impedance, delay: (stretch[index].length ?? 0) * line.delay }
      : section,
  )
  return { ...rest, main: main.impedance, sections: moved }
}

export function besideMain(neck: NeckEnd, main: Ohms): NeckCase {
  return { ...caseOf(neck), main }
}

/**
 * Where, on the way from a value that fails to one that passes, the neck begins to pass; null where the far
 * value does not pass or a trial on the way cannot be.
 */
export function firstPassing(
  context: FindingContext,
  neck: NeckEnd,
  from: number,
  to: number,
  trial: (value: number) => NeckCase | null,
): number | null {
  const goal = SAFE_SIDE * neck.end.reflection.limit
  const peakAt = (value: number): Ratio => {
    const tried = trial(value)
    return tried === null ? Infinity : triedPeak(context, neck.netClass, tried)
  }
  if (!(peakAt(to) <= goal) || !(peakAt(from) > goal)) return null
  const tolerance = CLOSE * Math.abs(to - from)
  return bracketRoot((tried) => Math.min(peakAt(tried), 10) - goal, from, to, { tolerance })
}

/** A ball cannot leave by less than the straight way from its ring to half a pitch outside the grid. */
export function shortestNeck(context: FindingContext, { signal, end }: NeckEnd): Metres {
  const pack = boardIndex(context).packages.get(end.package)
  const ring = ringIndex(context).get(`${signal.net}|${end.package}|${end.ball}`)
  if (pack === undefined || ring === undefined) return 0
  return (ring - 0.5) * Math.min(pack.pitch.x, pack.pitch.y)
}

const rings = new WeakMap<FindingContext, Map<string, number>>()

function ringIndex(context: FindingContext): Map<string, number> {
  const known = rings.get(context)
  if (known !== undefined) return known
  const index = new Map(
    context.routes.map((route) => [`${route.net}|${route.package}|${route.ball}`, route.ring]),
  )
  rings.set(context, index)
  return index
}

function lengthOf(sections: readonly NetSection[]): Metres {
  return sections.reduce((sum, section) => sum + (section.length ?? 0), 0)
}
