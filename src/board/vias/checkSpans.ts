import type { Path } from '../document/path.ts'
import type { Notes } from '../notes.ts'
import { pressings, type Dielectrics, type Span } from './buildableSpans.ts'

export interface NamedSpan extends Span {
  readonly name: string
  readonly path: Path
}

/**
 * Refuses vias whose spans no order of lamination can make, with the reason: a span that no
 * laminate can have on its own, two that cross, or a set that only together is too much.
 */
export function checkSpans(
  spans: readonly NamedSpan[],
  dielectrics: Dielectrics,
  layerNames: readonly string[],
  notes: Notes,
): void {
  const alone = spans.filter((span) => pressings(dielectrics, [span]) === null)
  for (const span of alone) {
    const allowed = 'a span that begins and ends on the faces of one laminate'
    const message = `Via "${span.name}" from ${layers(span, layerNames)} cannot be built: ${reason(span, dielectrics, layerNames)}.`
    notes.error(span.path, { found: layers(span, layerNames), allowed, message })
  }
  const sound = spans.filter((span) => !alone.includes(span))
  const before = notes.issues.length
  sound.forEach((second, index) => {
    const first = sound.slice(0, index).find((other) => pressings(dielectrics, [other, second]) === null)
    if (first !== undefined) reportPair(first, second, layerNames, notes)
  })
  if (notes.issues.length > before || sound.length === 0 || pressings(dielectrics, sound) !== null) return
  const all = sound.map((span) => `"${span.name}" ${layers(span, layerNames)}`).join(', ')
  notes.error(['vias'], {
    found: all,
    allowed: 'spans of which any two lie apart or one within the other, each a laminate of its own',
    message: `No order of lamination builds these vias together: ${all}.`,
  })
}

function reportPair(first: NamedSpan, second: NamedSpan, layerNames: readonly string[], notes: Notes): void {
  const shared = layerNames.slice(Math.max(first.first, second.first) - 1, Math.min(first.last, second.last))
  const why =
    shared.length > 0
      ? `they share ${shared.join(', ')} and neither lies within the other, so the laminate of one would have to be cut to make the other`
      : 'no order of lamination leaves both their laminates whole'
  notes.error(second.path, {
    found: `${layers(second, layerNames)} beside ${layers(first, layerNames)}`,
    allowed: 'spans that lie apart or one within the other',
    message: `Via "${second.name}" from ${layers(second, layerNames)} and via "${first.name}" from ${layers(first, layerNames)} cannot both be built: ${why}.`,
  })
}

function layers(span: Span, names: readonly string[]): string {
  return `${names[span.first - 1] ?? span.first} to ${names[span.last - 1] ?? span.last}`
}

/** Why one span alone fails: it ends inside a core, whose two copper faces are always together. */
function reason(span: Span, dielectrics: Dielectrics, names: readonly string[]): string {
  const name = (number: number): string => names[number - 1] ?? String(number)
  if (dielectrics[span.first - 2] === 'core') {
    return `${name(span.first)} is the lower face of a core whose upper face is ${name(span.first - 1)}, so no laminate begins there`
  }
  if (dielectrics[span.last - 1] === 'core') {
    return `${name(span.last)} is the upper face of a core whose lower face is ${name(span.last + 1)}, so no laminate ends there`
  }
  return 'no laminate of this stackup begins and ends there'
}
