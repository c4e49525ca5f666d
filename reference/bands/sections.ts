/**
 * Seeded random cross-sections in micrometres, for measuring and for trying error bands: the fine-line regime of a
 * breakout, and a wider one around it.
 */
import fc from 'fast-check'
import { FINE_LINES, type LineRanges } from '../../src/impedance/formulas/regimes.ts'
import type { CrossSection, DielectricSheet, MaskCoat } from '../../src/section/crossSection.ts'

export const STRUCTURES = [
  'bare microstrip',
  'coated microstrip',
  'embedded microstrip',
  'stripline',
] as const
export const ARRANGEMENTS = ['single', 'edge pair', 'broadside pair'] as const
export const SIDES = ['open', 'coplanar ground'] as const

export interface Kind {
  readonly structure: (typeof STRUCTURES)[number]
  readonly arrangement: (typeof ARRANGEMENTS)[number]
  readonly sides: (typeof SIDES)[number]
}

/** Every kind of section; a broadside pair stands between two planes. */
export const KINDS: readonly Kind[] = STRUCTURES.flatMap((structure) =>
  ARRANGEMENTS.flatMap((arrangement) => SIDES.map((sides): Kind => ({ structure, arrangement, sides }))),
).filter(({ structure, arrangement, sides }) =>
  arrangement === 'broadside pair' ? structure === 'stripline' && sides === 'open' : true,
)

/** What to draw from: sizes, and whether one permittivity and one sheet a side are everywhere. */
export interface Draw {
  readonly ranges: LineRanges
  readonly plain: boolean
}

export const PLAIN: Draw = { ranges: FINE_LINES, plain: true }
export const FINE: Draw = { ranges: FINE_LINES, plain: false }
export const WIDE: Draw = {
  ranges: {
    trace: [25e-6, 1500e-6],
    copper: [5e-6, 100e-6],
    height: [30e-6, 1500e-6],
    permittivity: [2, 10],
  },
  plain: false,
}

/** Where permittivities are stated and taken. */
export const FREQUENCY = 1e9

export function randomLines(kind: Kind, draw: Draw, count: number, seed: number): CrossSection[] {
  return fc.sample(lines(kind, draw), { numRuns: count, seed })
}

const MICROMETRE = 1e-6
/** Side walls lean by at most this share of the copper's thickness: 70 degrees and steeper. */
const LEAN = 0.36

const between = (low: number, high: number): fc.Arbitrary<number> =>
  fc.double({ min: low, max: high, noNaN: true })
/** Whole micrometres, evenly over the logarithm. */
const microns = ([low, high]: readonly [number, number]): fc.Arbitrary<number> =>
  between(Math.log(low), Math.log(high)).map((value) => Math.round(Math.exp(value) / MICROMETRE) * MICROMETRE)

function lines({ structure, arrangement, sides }: Kind, { ranges, plain }: Draw): fc.Arbitrary<CrossSection> {
  const permittivity = between(...ranges.permittivity)
  const sheet = fc.record({ thickness: microns(ranges.height), er: permittivity })
  const one = sheet.map((only): Layer[] => [only])
  const pile = plain
    ? one
    : fc.oneof({ weight: 2, arbitrary: one }, { weight: 1, arbitrary: halved(sheet, permittivity) })
  return fc
    .record({
      width: microns(ranges.trace),
      copper: microns(ranges.copper),
      lean: between(0, LEAN),
      foot: fc.constantFrom('below' as const, 'above' as const),
      gap: microns(ranges.trace),
      coplanarGap: microns(ranges.trace),
      below: pile,
      above: pile,
      between: sheet,
      common: permittivity,
      unlike: between(0.96, 1.04),
      mask: fc.record({ over: between(8, 40), share: between(0.4, 1), er: between(3, 4.2) }),
    })
    .map((drawn) => {
      const thickest = (plain ? 0.55 : 0.9) * drawn.width
      const thickness = Math.min(drawn.copper, Math.floor(thickest / MICROMETRE) * MICROMETRE)
      const alike = (layers: readonly Layer[], er: number): Layer[] =>
        layers.map((layer) => (plain ? { ...layer, er } : layer))
      const topWidth = Math.max(0.4 * drawn.width, drawn.width - 2 * drawn.lean * thickness)
      const buried = structure === 'embedded microstrip' || structure === 'stripline'
      const mask = { over: drawn.mask.over * MICROMETRE, share: drawn.mask.share, er: drawn.mask.er }
      return {
        layer: 1,
        layerName: 'L1',
        upsideDown: false,
        structure: structure === 'stripline' ? 'stripline' : 'microstrip',
        arrangement,
        trace: {
          width: drawn.width,
          topWidth,
          thickness,
          foot: buried ? drawn.foot : 'below',
          roughness: 0,
          resistivity: 1.7241e-8,
        },
        gap: arrangement === 'edge pair' ? Math.max(drawn.gap, 0.6 * thickness) : null,
        broadside:
          arrangement === 'broadside pair'
            ? { layer: 2, sheets: sheetsOf(alike([drawn.between], drawn.common)) }
            : null,
        coplanarGap: sides === 'open' ? null : Math.max(drawn.coplanarGap, 0.6 * thickness),
        below: sheetsOf(alike(drawn.below, drawn.common)),
        above: buried ? sheetsOf(alike(drawn.above, drawn.common * drawn.unlike)) : [],
        mask: structure === 'coated microstrip' ? coatOf(mask) : null,
        planeBelow: { layer: 2, layerName: 'L2', net: 'GND' },
        planeAbove: structure === 'stripline' ? { layer: 0, layerName: 'L0', net: 'GND' } : null,
        emptyLayers: [],
        assumed: [],
      } satisfies CrossSection
    })
}

interface Layer {
  readonly thickness: number
  readonly er: number
}

/** Two sheets of their own permittivity in the place of one. */
function halved(sheet: fc.Arbitrary<Layer>, permittivity: fc.Arbitrary<number>): fc.Arbitrary<Layer[]> {
  return fc
    .record({ sheet, share: between(0.2, 0.8), er: permittivity })
    .map(({ sheet: { thickness, er }, ...far }) => [
      { thickness: far.share * thickness, er },
      { thickness: (1 - far.share) * thickness, er: far.er },
    ])
}

function sheetsOf(layers: readonly Layer[]): DielectricSheet[] {
  return layers.map(({ thickness, er }, index) => ({
    name: `sheet ${index + 1}`,
    thickness,
    permittivity: permittivityOf(er),
  }))
}

/** Mask is thinner over a trace than over the laminate. */
function coatOf({ over, share, er }: { over: number; share: number; er: number }): MaskCoat {
  return { overLaminate: over, overTrace: share * over, permittivity: permittivityOf(er) }
}

function permittivityOf(relative: number): DielectricSheet['permittivity'] {
  return { relative, lossTangent: 0, frequency: FREQUENCY, tolerance: 0 }
}
