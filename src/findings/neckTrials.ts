import { landLayerOf, packageOf } from '../board/lookup.ts'
import { bracketRoot } from '../numerics/bracketRoot.ts'
import type { ViaLine } from '../impedance/viaLine.ts'
import type { Route } from '../routes/route.ts'
import type { NeckCase } from '../signal/neckReflection.ts'
import type { NetSection } from '../signal/netSignal.ts'
import type { Metres, Ohms, Ratio, Seconds } from '../units/quantity.ts'
import { boardIndex } from './boardIndex.ts'
import type { FindingContext } from './context.ts'
import { caseOf, narrowSections, triedPeak, type NeckEnd } from './neckEnds.ts'
import { tryLine, tryNear, type TrialRequest, type TriedLine } from './trials.ts'

/** A remedy must pass, not touch: it is solved for this share of the limit. */
const SAFE_SIDE: Ratio = 0.998
/** Share of the way: a remedy is drawn to a coarser grid. */
const CLOSE: Ratio = 1e-5

/** The neck and its dog-bone at another width; null where the stackup cannot carry it. */
export function atWidth(context: FindingContext, neck: NeckEnd, width: Metres): NeckCase | null {
  return neckOf(neck, (section) =>
    tryLine(context, neck.netClass, { ...requestFor(context, neck, section), width }),
  )
}

/** `atWidth` nearly, for searches: what is found has to be tried with `atWidth`. */
export function nearWidths(context: FindingContext, neck: NeckEnd): (width: Metres) => NeckCase | null {
  const near = new Map(
    narrowSections(neck)
      .filter(({ kind }) => kind !== 'via')
      .map((section) => {
        const request = requestFor(context, neck, section)
        return [section, { request, tried: tryNear(context, neck.netClass, request) }]
      }),
  )
  return (width) =>
    neckOf(neck, (section) => {
      const known = near.get(section)
      return known === undefined ? null : known.tried({ ...known.request, width })
    })
}

/** The neck with another line in each of its sections. */
function neckOf(neck: NeckEnd, lineOf: (section: NetSection) => TriedLine | null): NeckCase | null {
  const own = caseOf(neck)
  const sections = narrowSections(neck).map((section, index) => {
    if (section.kind === 'via') return own.sections[index] ?? null
    const line = lineOf(section)
    return line && { impedance: line.impedance, delay: (section.length ?? 0) * line.delay }
  })
  const lines = sections.filter((section) => section !== null)
  return lines.length < sections.length ? null : { ...own, sections: lines }
}

function requestFor(context: FindingContext, { netClass, end }: NeckEnd, section: NetSection): TrialRequest {
  const entry = context.lines.neck(netClass.name, section.layer, end.package, section.gap)
  return {
    layer: section.layer,
    width: section.width ?? end.width,
    gap: section.gap,
    coplanarGap: null,
    broadsideLayer: null,
    loading: entry?.loaded?.ratio ?? 1,
  }
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

/**
 * The neck, its via and its main route on another layer of the table, as long as it is; null where the table has none or the via
 * does not go there.
 */
export function onOtherLayer(context: FindingContext, neck: NeckEnd, layer: number): NeckCase | null {
  const { end, netClass } = neck
  const entry = context.lines.neck(netClass.name, layer, end.package, end.gap)
  const line = entry?.runs
  const main = context.lines.main(netClass.name, layer)?.impedance
  if (!line || !main) return null
  const { sections, ...rest } = caseOf(neck)
  const stretch = narrowSections(neck)
  // A via that could not be solved counts as nothing on any layer.
  const isSolved = stretch.some(({ kind, impedance: solved }) => kind === 'via' && solved !== null)
  const isLand = layer === landLayerOf(context.board, packageOf(context.board, end.package))
  // Plans fill the layer of the lands first: a net that has a via found no room there.
  if (isSolved && isLand) return null
  const via = isSolved ? viaTo(context, neck, layer) : null
  const moved = sections.map((section, index) => {
    const { kind, length } = stretch[index] ?? {}
    if (kind === 'via' && isSolved) return via
    return kind === 'neck' ? { impedance: line.impedance, delay: (length ?? 0) * line.delay } : section
  })
  const known = moved.filter((section) => section !== null)
  return known.length < moved.length ? null : { ...rest, main: main.impedance, sections: known }
}

/** The neck with its via drilled back; null where it has none, or one that cannot be drilled so. */
export function withStub(context: FindingContext, neck: NeckEnd, stub: Metres): NeckCase | null {
  const route = routeOf(context, neck)
  const via = route === undefined ? null : context.rerun.viaDrilledBack(route, stub)
  if (via === null) return null
  const kinds = narrowSections(neck).map(({ kind }) => kind)
  const { sections, ...rest } = caseOf(neck)
  return { ...rest, sections: sections.map((section, index) => (kinds[index] === 'via' ? via : section)) }
}

/** The via of a net's end as it would be if the net left on another layer; null where it does not go there. */
function viaTo(context: FindingContext, neck: NeckEnd, layer: number): ViaLine | null {
  const route = routeOf(context, neck)
  return route === undefined ? null : context.rerun.via(route, layer)
}

function routeOf(context: FindingContext, { signal, end }: NeckEnd): Route | undefined {
  return context.routes.find(
    (each) => each.net === signal.net && each.ball === end.ball && each.package === end.package,
  )
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

/** Travel along the traces of a neck as it is tried, its via left out; 0 of what cannot be. */
export function traceDelay(neck: NeckEnd, tried: NeckCase | null): Seconds {
  const kinds = narrowSections(neck).map(({ kind }) => kind)
  return (tried?.sections ?? []).reduce(
    (sum, { delay }, index) => (kinds[index] === 'via' ? sum : sum + delay),
    0,
  )
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
