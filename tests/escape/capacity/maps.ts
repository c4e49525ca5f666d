import fc from 'fast-check'
import type { LayerMap } from '../../../src/escape/capacity/layerMap.ts'

const MICROMETRE = 1e-6

/** Lengths in micrometres. */
export interface Lengths {
  readonly pitchX: number
  readonly pitchY: number
  readonly smallReach: number
  readonly largeReach: number
  readonly width: number
  readonly gap: number
}

/** One trace passes between two neighbours: pitch, pad and lines of the published 40 × 40 array. */
export const ONE_TRACE: Lengths = {
  pitchX: 150,
  pitchY: 150,
  smallReach: 57.5,
  largeReach: 57.5,
  width: 20,
  gap: 20,
}

/** A map of letters, as reference/escape/vertexDisjointPaths.py explains them. */
export function mapOf(rows: readonly string[], lengths: Lengths, tolerance = 0.5): LayerMap {
  const reachOf = (letter: string): number =>
    letter === '.' ? 0 : letter === letter.toLowerCase() ? lengths.smallReach : lengths.largeReach
  const waits = (letter: string): boolean => letter === 's' || letter === 'S'
  return {
    xs: lettersOf(rows[0] ?? '').map((_, column) => column * lengths.pitchX * MICROMETRE),
    ys: rows.map((_, row) => (rows.length - row) * lengths.pitchY * MICROMETRE),
    reach: rows.map((row) => lettersOf(row).map((letter) => reachOf(letter) * MICROMETRE)),
    sources: rows.flatMap((line, row) =>
      lettersOf(line).flatMap((letter, column) => (waits(letter) ? [{ row, column }] : [])),
    ),
    width: lengths.width * MICROMETRE,
    gap: lengths.gap * MICROMETRE,
    tolerance: tolerance * MICROMETRE,
  }
}

/** The letters of a row, one for each site. */
export function lettersOf(row: string): string[] {
  return row.split('')
}

export function full(rows: number, columns: number, letter = 's'): string[] {
  return Array.from({ length: rows }, () => letter.repeat(columns))
}

/** Maps of which about half are limited by a cut: missing balls, supplies, two reaches, none to three lanes. */
export const randomMap: fc.Arbitrary<{ readonly rows: readonly string[]; readonly lengths: Lengths }> =
  fc.record({
    rows: fc
      .record({
        rows: fc.integer({ min: 8, max: 16 }),
        columns: fc.integer({ min: 8, max: 16 }),
        missing: fc.constantFrom(0, 1, 2, 4),
        large: fc.constantFrom(0, 6, 20),
      })
      .chain(({ rows, columns, missing, large }) => {
        const letter = fc.oneof(
          { weight: missing, arbitrary: fc.constant('.') },
          { weight: 20, arbitrary: fc.constant('s') },
          { weight: large, arbitrary: fc.constantFrom('S', 'O') },
          { weight: 2, arbitrary: fc.constant('o') },
        )
        const row = fc
          .array(letter, { minLength: columns, maxLength: columns })
          .map((letters) => letters.join(''))
        return fc.array(row, { minLength: rows, maxLength: rows })
      }),
    lengths: fc
      .record({
        pitchX: fc.constantFrom(500, 800, 1000),
        pitchY: fc.constantFrom(500, 800),
        smallShare: fc.integer({ min: 50, max: 95 }),
        largeShare: fc.integer({ min: 70, max: 110 }),
        width: fc.constantFrom(75, 100, 125),
        gap: fc.constantFrom(75, 100),
      })
      .map(({ smallShare, largeShare, ...rest }) => ({
        ...rest,
        smallReach: 2.5 * smallShare,
        largeReach: 2.5 * Math.max(smallShare, largeShare),
      })),
  })
