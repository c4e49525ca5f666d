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
  const press = (a: number, b: number): number | null => {
    const key = `${a}-${b}`
    const known = found.get(key)
    if (known !== undefined) return known
    const count = pressRun(a, b, dielectrics, spans, press)
    found.set(key, count)
    return count
  }
  return press(1, layers)
}

function pressRun(
  a: number,
  b: number,
  dielectrics: Dielectrics,
  spans: readonly Span[],
  press: (a: number, b: number) => number | null,
): number | null {
  if (b === a + 1 && dielectrics[a - 1] === 'core') return 0
  /** fewest[i]: pressings that parts covering a … i have had, or null. */
  const fewest = new Map<number, number | null>([[a - 1, 0]])
  for (let end = a; end <= b; end += 1) {
    let best: number | null = null
    for (let start = a; start <= end; start += 1) {
      if (start === a && end === b) continue
      if (start > a && !mayPart(start - 1, a, b, dielectrics, spans)) continue
      const before = fewest.get(start - 1) ?? null
      const part = start === end ? (start === a || start === b ? 0 : null) : press(start, end)
      if (before === null || part === null) continue
      best = Math.min(best ?? Infinity, Math.max(before, part))
    }
    fewest.set(end, best)
  }
  const parts = fewest.get(b) ?? null
  return parts === null ? null : parts + 1
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
