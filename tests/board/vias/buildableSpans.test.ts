import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { pressings, type Dielectrics, type Span } from '../../../src/board/vias/buildableSpans.ts'

const drilled = (first: number, last: number): Span => ({ first, last, laser: false })
const laser = (first: number, last: number): Span => ({ first, last, laser: true })

/** `c` core, `p` prepreg, top to bottom. */
function stack(letters: string): Dielectrics {
  return Array.from(letters, (letter) => (letter === 'c' ? 'core' : 'prepreg'))
}

/**
 * Every way to build copper layers a … b, as the laminates that exist on the way: found by writing
 * out all of them, with no thought of vias.
 */
function waysToBuild(a: number, b: number, dielectrics: Dielectrics): string[][] {
  if (b === a + 1 && dielectrics[a - 1] === 'core') return [[`${a}-${b}`]]
  const partings = (start: number): number[][] => {
    if (start > b) return [[]]
    return Array.from({ length: b - start + 1 }, (_, index) => start + index)
      .filter((end) => end === b || dielectrics[end - 1] === 'prepreg')
      .flatMap((end) => partings(end + 1).map((rest) => [end, ...rest]))
  }
  return partings(a)
    .filter((ends) => ends.length > 1)
    .flatMap((ends) => {
      const parts = ends.map((end, index) => [index === 0 ? a : (ends[index - 1] ?? 0) + 1, end] as const)
      const choices = parts.map(([start, end]) => {
        if (start !== end) return waysToBuild(start, end, dielectrics)
        return start === a || start === b ? [[]] : []
      })
      const combined = choices.reduce<string[][]>(
        (all, choice) => all.flatMap((one) => choice.map((other) => [...one, ...other])),
        [[]],
      )
      return combined.map((laminates) => [...laminates, `${a}-${b}`])
    })
}

function canBeMade(span: Span, laminates: readonly string[]): boolean {
  return laminates.some((laminate) => {
    const [first = 0, last = 0] = laminate.split('-').map(Number)
    if (!span.laser) return first === span.first && last === span.last
    const within = span.first >= first && span.last <= last
    return within && (span.first === first || span.last === last)
  })
}

describe('the order of lamination', () => {
  it.each([
    ['a core alone', 'c', [drilled(1, 2)], 0],
    ['an ordinary board of six layers', 'pcpcp', [drilled(1, 6)], 1],
    ['a buried hole through a core', 'pcpcp', [drilled(1, 6), drilled(2, 3)], 1],
    [
      'microvias on both sides of a drilled core stack',
      'ppcpp',
      [drilled(2, 5), laser(1, 2), laser(5, 6)],
      2,
    ],
    ['two build-ups, microvia on microvia', 'pppcppp', [laser(1, 2), laser(2, 3), drilled(3, 6)], 3],
    ['two halves with holes of their own', 'cpcpcpc', [drilled(1, 4), drilled(5, 8), drilled(1, 8)], 2],
    ['a buried hole within a blind one', 'pcpcp', [drilled(2, 5), drilled(1, 6)], 2],
    ['a microvia that skips a layer', 'ppcpp', [laser(1, 3)], 2],
  ] as const)('builds %s', (_, letters, spans, count) => {
    expect(pressings(stack(letters), spans)).toBe(count)
  })

  it.each([
    ['two spans that cross', 'pppppp', [drilled(1, 4), drilled(3, 6)]],
    ['two spans that share one layer', 'ppppp', [drilled(1, 3), drilled(3, 6)]],
    ['a span that ends inside a core', 'pcpcp', [drilled(1, 2)]],
    ['a span that begins inside a core', 'pcpcp', [drilled(3, 6)]],
    ['a blind hole from the face through half a core', 'cpcpc', [drilled(1, 3)]],
    ['a microvia buried in the middle of one pressing', 'cpcpc', [laser(2, 3), drilled(1, 4), drilled(3, 6)]],
    [
      'a microvia that ends inside a core and starts at no surface',
      'cpcpc',
      [laser(2, 3), laser(4, 5), drilled(3, 4)],
    ],
  ] as const)('does not build %s', (_, letters, spans) => {
    expect(pressings(stack(letters), spans)).toBeNull()
  })

  it('is found exactly where writing out all ways to build the board finds one', () => {
    const board = fc.integer({ min: 1, max: 6 }).chain((count) => {
      const layer = fc.integer({ min: 1, max: count + 1 })
      const span = fc
        .record({ first: layer, last: layer, laser: fc.boolean() })
        .filter(({ first, last, laser: burnt }) => first < last && (!burnt || last - first <= 2))
      const kinds = fc.array(fc.constantFrom('core' as const, 'prepreg' as const, 'prepreg' as const), {
        minLength: count,
        maxLength: count,
      })
      return fc.record({ dielectrics: kinds, spans: fc.array(span, { maxLength: 3 }) })
    })
    let [built, refused] = [0, 0]
    fc.assert(
      fc.property(board, ({ dielectrics, spans }) => {
        const ways = waysToBuild(1, dielectrics.length + 1, dielectrics)
        const possible = ways.some((laminates) => spans.every((span) => canBeMade(span, laminates)))
        if (possible) built += 1
        else refused += 1
        expect(pressings(dielectrics, spans) !== null).toBe(possible)
      }),
      { seed: 4, numRuns: 1500 },
    )
    expect(Math.min(built, refused)).toBeGreaterThan(200)
  })

  it('takes a moment for forty layers and ten spans', () => {
    const dielectrics = stack('pc'.repeat(19) + 'p')
    const spans = Array.from({ length: 10 }, (_, index) => drilled(2 + 2 * index, 39 - 2 * index))
    // The innermost span is a core, so nine laminates and the board remain to be pressed.
    expect(pressings(dielectrics, [drilled(1, 40), ...spans])).toBe(10)
  })
})
