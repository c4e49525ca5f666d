import { z } from 'zod'
import { DIMENSION_WORDS } from '../../units/dimension.ts'
import { parseQuantity, type Arithmetic, type Dimension } from '../../units/parse.ts'
import type {
  BitsPerSecond,
  Hertz,
  Metres,
  OhmMetres,
  Ohms,
  Radians,
  Ratio,
  Seconds,
  SymbolsPerSecond,
} from '../../units/quantity.ts'

/** The places of a description that hold one value, as schemas that turn text into SI. */
export interface Leaves {
  /** A length above zero, at most a metre: nothing on a board is larger, and `m` for `um` is a slip. */
  readonly size: z.ZodType<Metres>
  /** A length from zero to a metre. */
  readonly sizeOrZero: z.ZodType<Metres>
  /** A coordinate: negative ones too. */
  readonly coordinate: z.ZodType<Metres>
  /** A thickness of copper as length or weight. */
  readonly copper: z.ZodType<Metres>
  readonly time: z.ZodType<Seconds>
  readonly timeOrZero: z.ZodType<Seconds>
  readonly frequency: z.ZodType<Hertz>
  readonly impedance: z.ZodType<Ohms>
  readonly bitRate: z.ZodType<BitsPerSecond>
  readonly symbolRate: z.ZodType<SymbolsPerSecond>
  readonly angle: z.ZodType<Radians>
  /** Between trace foot and side wall. */
  readonly sidewall: z.ZodType<Radians>
  readonly resistivity: z.ZodType<OhmMetres>
  readonly permittivity: z.ZodType<Ratio>
  /** A number above zero. */
  readonly factor: z.ZodType<Ratio>
  /** From 0 to 1. */
  readonly share: z.ZodType<Ratio>
  /** From 0 to below 1: a half-width as a fraction. */
  readonly tolerance: z.ZodType<Ratio>
}

/** What a leaf says of a text that is no such quantity: the parameters of its issue. */
export interface QuantityProblem {
  readonly found: string
  readonly allowed: string
  /** True where there is no text at all. */
  readonly absent: boolean
  /** True where the text is a sum or product, and no arithmetic was at hand. */
  readonly needsArithmetic: boolean
}

interface Range {
  readonly words: string
  readonly holds: (value: number) => boolean
}

const ABOVE_ZERO: Range = { words: 'above zero', holds: (value) => value > 0 }
const NOT_NEGATIVE: Range = { words: 'not below zero', holds: (value) => value >= 0 }
const SIZE: Range = { words: 'above zero and at most 1 m', holds: (value) => value > 0 && value <= 1 }
const SIZE_OR_ZERO: Range = { words: 'from zero to 1 m', holds: (value) => value >= 0 && value <= 1 }
const COORDINATE: Range = { words: 'within 10 m of the origin', holds: (value) => Math.abs(value) <= 10 }
const SHARE: Range = { words: 'from 0 to 1 (0 % to 100 %)', holds: (value) => value >= 0 && value <= 1 }
const TOLERANCE: Range = { words: 'from 0 to below 1 (100 %)', holds: (value) => value >= 0 && value < 1 }
const RELATIVE: Range = { words: 'from 1 to 100', holds: (value) => value >= 1 && value <= 100 }

const SIDEWALL: Range = {
  words: 'from 30 deg to 90 deg',
  holds: (value) => value >= Math.PI / 6 && value <= Math.PI / 2,
}

/** Made once for each arithmetic: schemas are costly to make. */
const known = new WeakMap<Arithmetic, Leaves>()

/**
 * Leaves that do arithmetic. With null a sum or product is a problem that says `needsArithmetic`.
 */
export function leavesWith(arithmetic: Arithmetic | null): Leaves {
  if (arithmetic === null) return PLAIN_LEAVES
  const leaves = known.get(arithmetic) ?? makeLeaves(arithmetic)
  known.set(arithmetic, leaves)
  return leaves
}

function makeLeaves(arithmetic: Arithmetic | null): Leaves {
  const leaf = (dimension: Dimension, range: Range): z.ZodType<number> =>
    z
      .unknown()
      .transform((text, context) => {
        const reading = parseQuantity(text, dimension, arithmetic)
        if (reading.ok && range.holds(reading.value)) return reading.value
        const { found, allowed } = reading.ok ? outside(text, dimension, range) : reading
        const params: QuantityProblem = {
          found,
          allowed,
          absent: text === undefined,
          needsArithmetic: !reading.ok && reading.needsArithmetic === true,
        }
        context.addIssue({ code: 'custom', message: allowed, params: { ...params } })
        return z.NEVER
      })
      .meta({
        type: dimension === 'ratio' ? ['string', 'number'] : 'string',
        examples: [DIMENSION_WORDS[dimension].example],
        description: `${DIMENSION_WORDS[dimension].noun}, ${range.words}`,
      })
  return {
    size: leaf('length', SIZE),
    sizeOrZero: leaf('length', SIZE_OR_ZERO),
    coordinate: leaf('length', COORDINATE),
    copper: leaf('copper thickness', SIZE),
    time: leaf('time', ABOVE_ZERO),
    timeOrZero: leaf('time', NOT_NEGATIVE),
    frequency: leaf('frequency', ABOVE_ZERO),
    impedance: leaf('impedance', ABOVE_ZERO),
    bitRate: leaf('bit rate', ABOVE_ZERO),
    symbolRate: leaf('symbol rate', ABOVE_ZERO),
    angle: leaf('angle', { words: 'of any size', holds: () => true }),
    sidewall: leaf('angle', SIDEWALL),
    resistivity: leaf('resistivity', ABOVE_ZERO),
    permittivity: leaf('ratio', RELATIVE),
    factor: leaf('ratio', ABOVE_ZERO),
    share: leaf('ratio', SHARE),
    tolerance: leaf('ratio', TOLERANCE),
  }
}

const PLAIN_LEAVES = makeLeaves(null)

function outside(text: unknown, dimension: Dimension, range: Range): { found: string; allowed: string } {
  return { found: String(text), allowed: `${DIMENSION_WORDS[dimension].noun} ${range.words}` }
}
