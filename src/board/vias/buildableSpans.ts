/** A hole from one copper layer to another, 1 at the top. */
export interface Span {
  readonly first: number
  readonly last: number
  /** Burnt by laser from the surface of a laminate; all others are drilled through one. */
  readonly laser: boolean
}

/** What separates copper layer i + 1 from i + 2. */
export type Dielectrics = readonly ('core' | 'prepreg')[]

/**
 * Number of pressings after which every span can have been made, or null where no order of
 * lamination makes them all.
 *
 * A laminate is a run of copper layers [a … b] that is one solid panel at some stage of fabrication.
 * A core is a laminate from the start. Any other is pressed from smaller laminates, each parted from
 * the next by prepreg, with a single foil allowed as the outermost layer on either face. The board is
 * the laminate of all layers. A plated hole is drilled through a whole laminate, so its span must be
 * one of them. A microvia is burnt from a surface: its span must begin or end on the face of a
 * laminate that reaches at least as far as the span. Holes drilled to a controlled depth are not
 * considered.
 *
 * The laminates of one board form a tree, so the search goes over all runs of layers, smallest first:
 * a run is pressable if some way of parting it leaves pressable parts and parts no span that has to
 * exist before. Cost is of the order of layers cubed times spans.
 */
export function pressings(dielectrics: Dielectrics, spans: readonly Span[]): number | null {
  const layers = dielectrics.length + 1
  const found = new Map<string, number | null>()
  const press: Press = (a, b) => {
    const key = `${a}-${b}`
    const known = found.get(key)
    if (known !== undefined) return known
    const count = pressRun(a, b, dielectrics, spans, press)
    found.set(key, count)
    return count
  }
  return press(1, layers)
}

type Press = (a: number, b: number) => number | null

function pressRun(
  a: number,
  b: number,
  dielectrics: Dielectrics,
  spans: readonly Span[],
  press: Press,
): number | null {
  if (b === a + 1 && dielectrics[a - 1] === 'core') return 0
  const isFace = (layer: number): boolean => layer === a || layer === b
  /** A part of the run: a laminate, or a single foil on one of its faces. */
  const part = (start: number, end: number): number | null => {
    if (start === end) return isFace(start) ? 0 : null
    return start === a && end === b ? null : press(start, end)
  }
  /** Most pressings that any part of the run up to a layer has had, least over all ways to part it. */
  const upTo = new Map<number, number | null>([[a - 1, 0]])
  for (let end = a; end <= b; end += 1) {
    const ways = range(a, end)
      .filter((start) => start === a || mayPart(start - 1, a, b, dielectrics, spans))
      .map((start) => larger(upTo.get(start - 1) ?? null, part(start, end)))
    upTo.set(end, ways.reduce(smaller, null))
  }
  const parts = upTo.get(b) ?? null
  return parts === null ? null : parts + 1
}

function range(first: number, last: number): number[] {
  return Array.from({ length: last - first + 1 }, (_, index) => first + index)
}

/** Null, impossible, wins over any number. */
function larger(x: number | null, y: number | null): number | null {
  return x === null || y === null ? null : Math.max(x, y)
}

/** Any number wins over null. */
function smaller(x: number | null, y: number | null): number | null {
  return x === null || y === null ? (x ?? y) : Math.min(x, y)
}

/** Whether run a … b may be joined from parts below layer i only now, in this pressing. */
function mayPart(i: number, a: number, b: number, dielectrics: Dielectrics, spans: readonly Span[]): boolean {
  if (dielectrics[i - 1] !== 'prepreg') return false
  return !spans.some((span) => {
    const cut = span.first <= i && span.last > i
    const inside = span.first >= a && span.last <= b
    if (!cut || !inside) return false
    const madeNow = span.laser ? span.first === a || span.last === b : span.first === a && span.last === b
    return !madeNow
  })
}
