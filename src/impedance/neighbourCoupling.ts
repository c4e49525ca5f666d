import { BoundedMemory } from '../numerics/boundedMemory.ts'
import type { CrossSection } from '../section/crossSection.ts'
import type { Hertz, Metres, Ohms, Ratio, SecondsPerMetre } from '../units/quantity.ts'
import { ifSolvable } from '../numerics/ifSolvable.ts'
import { impedanceAlone, type RowConstants, rowConstants } from './neighbourRow.ts'
import { permittivityIn } from './permittivityIn.ts'
import { physicsKey } from './physicsKey.ts'

/** A trace that runs beside another on the same layer. */
export interface NeighbourTrace {
  /** Finished foot width. */
  readonly width: Metres
  /** Foot edge to foot edge; of a pair from the nearer trace of it. */
  readonly gap: Metres
}

/** What a trace that switches does to the one beside it. */
export interface NeighbourCoupling {
  /** Mutual capacitance over that of the trace looked at, Cm/C; differential for a pair. */
  readonly capacitive: Ratio
  /** Mutual inductance over that of the neighbour, Lm/L. */
  readonly inductive: Ratio
  /**
   * Wave that runs back, over the neighbour's swing, once the coupled length is longer than the edge:
   * (Zv Cm + Lm/Za) / (2 (τa + τv)), which is (Cm/C + Lm/L)/4 of equal traces.
   */
  readonly backward: Ratio
  /** Wave that runs along, over length and slope of the neighbour's edge: (Zv Cm − Lm/Za)/2, negative over one plane. */
  readonly forward: SecondsPerMetre
  /** Mean of the two traces. */
  readonly delay: SecondsPerMetre
  /** Impedance while the neighbour switches with the trace, and against it, over that without a neighbour. */
  readonly withIt: Ratio
  readonly againstIt: Ratio
}

/**
 * Half-width of the band on `backward`. Worst of 934 rows drawn at random (traces and inner gaps of 60 to 160 µm, 50 to
 * 200 µm over their plane, gaps up to three heights between planes and four over one) against a fine solution of each:
 * 4.3 %, of coarse panels, the series of sizes, and the neighbour's width taken from it. `withIt` and `againstIt` 1.1 %,
 * `delay` 2.5 %; `forward` of a single trace over one plane 6 %, of a pair, where it nearly cancels, uncertain.
 */
export const COUPLING_BAND: Ratio = 0.05

/**
 * Coupling from a neighbour into the trace of a section: a single one, or differentially an edge pair. Weak coupling:
 * what the trace sends back into the neighbour is neglected. Quasi-static, lossless; unbroken planes. The section's own
 * coplanar ground plays no part.
 *
 * Changes slowly with sizes, so rows are solved for sizes of a series and taken as straight, or nearly, between them in
 * logarithms. `frequency` (Hz) is where permittivities are taken. Equal rows are solved once and remembered.
 *
 * Null where a row cannot be solved. Throws RangeError when a size is not positive, and for a broadside pair.
 *
 * Source: A. Feller, H. R. Kaupp, J. J. Digiacomo, "Crosstalk and reflections in high-speed digital systems", AFIPS
 * Fall Joint Computer Conference, 1965, 511–525 (from memory); S. H. Hall, G. W. Hall, J. A. McCall, High-Speed Digital
 * System Design, 2000, chapter 3 (from memory). For unlike lines from the same telegrapher's equations.
 */
export function neighbourCoupling(
  section: CrossSection,
  frequency: Hertz,
  neighbour: NeighbourTrace,
): NeighbourCoupling | null {
  for (const size of [neighbour.width, neighbour.gap]) {
    if (!(size > 0)) throw new RangeError(`width and gap of a neighbour must be above 0, got ${size} m`)
  }
  if (section.arrangement === 'broadside pair') throw new RangeError('a broadside pair has no neighbour here')
  const base = sectionKey(section, frequency)
  // To a tenth of a micrometre: centre lines carry rounding.
  const gap = Math.round(neighbour.gap * 1e7)
  return answers.recall(`${base}|${neighbour.width}|${gap}`, () => between(section, frequency, neighbour))
}

const answers = new BoundedMemory<NeighbourCoupling | null>(20_000)
const rows = new BoundedMemory<RowConstants | null>(5000)
const impedances = new BoundedMemory<Ohms>(1000)
const keys = new WeakMap<CrossSection, { readonly frequency: Hertz; readonly key: string }>()

function sectionKey(section: CrossSection, frequency: Hertz): string {
  const known = keys.get(section)
  if (known?.frequency === frequency) return known.key
  const key = physicsKey(section, permittivityIn(frequency))
  keys.set(section, { frequency, key })
  return key
}

interface Node {
  readonly value: Metres
  readonly weight: number
}

/** Weighted means of logarithms: what holds of products at every node, as Zv Za Cm = Lm in one dielectric, holds between. */
function between(
  section: CrossSection,
  frequency: Hertz,
  { width, gap }: NeighbourTrace,
): NeighbourCoupling | null {
  const widths = straight(section.trace.width)
  const innerGaps = section.gap === null ? [{ value: null, weight: 1 }] : straight(section.gap)
  const neighbourWidth = nearest(width)
  const sums = Array.from<number>({ length: NAMES.length }).fill(0)
  for (const own of widths) {
    for (const inner of innerGaps) {
      for (const away of curved(gap)) {
        const row = solvedRow(resized(section, own.value, inner.value), frequency, {
          width: neighbourWidth,
          gap: away.value,
        })
        if (row === null) return null
        const weight = own.weight * inner.weight * away.weight
        NAMES.forEach((name, index) => {
          sums[index] = (sums[index] ?? NaN) + weight * Math.log(row[name])
        })
      }
    }
  }
  const mean = (name: (typeof NAMES)[number]): number => Math.exp(Number(sums[NAMES.indexOf(name)]))
  return couplingOf({
    capacitance: mean('capacitance'),
    inductance: mean('inductance'),
    neighbourCapacitance: mean('neighbourCapacitance'),
    neighbourInductance: mean('neighbourInductance'),
    mutualCapacitance: mean('mutualCapacitance'),
    mutualInductance: mean('mutualInductance'),
    withIt: mean('withIt'),
    againstIt: mean('againstIt'),
  })
}

const NAMES = [
  'capacitance',
  'inductance',
  'neighbourCapacitance',
  'neighbourInductance',
  'mutualCapacitance',
  'mutualInductance',
  'withIt',
  'againstIt',
] as const satisfies readonly (keyof RowConstants)[]

/** The coefficients that follow from a row: weak coupling of two lossless lines, matched at all ends. */
export function couplingOf(row: RowConstants): NeighbourCoupling {
  const { capacitance, inductance, neighbourCapacitance, neighbourInductance } = row
  const victim = Math.sqrt(inductance / capacitance)
  const aggressor = Math.sqrt(neighbourInductance / neighbourCapacitance)
  const delays = Math.sqrt(inductance * capacitance) + Math.sqrt(neighbourInductance * neighbourCapacitance)
  const shared = row.mutualInductance * row.mutualCapacitance
  const byCapacitance = victim * row.mutualCapacitance
  const byInductance = row.mutualInductance / aggressor
  return {
    capacitive: row.mutualCapacitance / capacitance,
    inductive: row.mutualInductance / neighbourInductance,
    backward: (byCapacitance + byInductance) / (2 * delays),
    forward: (byCapacitance - byInductance) / 2,
    // What the one line lends the other is in both products: L C − Lm Cm is 1/v² in one dielectric.
    delay:
      (Math.sqrt(inductance * capacitance - shared) +
        Math.sqrt(neighbourInductance * neighbourCapacitance - shared)) /
      2,
    withIt: row.withIt,
    againstIt: row.againstIt,
  }
}

function solvedRow(section: CrossSection, frequency: Hertz, neighbour: NeighbourTrace): RowConstants | null {
  const relative = permittivityIn(frequency)
  const own = physicsKey(section, relative)
  return rows.recall(`${own}|${neighbour.width}|${neighbour.gap}`, () =>
    ifSolvable(() => {
      const alone = impedances.recall(own, () => impedanceAlone(section, relative, REFINEMENT))
      return rowConstants(section, relative, neighbour, REFINEMENT, alone)
    }),
  )
}

/** Coarse: within 1 % of the finest in the mutual entries. */
const REFINEMENT = { levels: 0, order: 1 }

function resized(section: CrossSection, width: Metres, gap: Metres | null): CrossSection {
  const { trace } = section
  const topWidth = width - (trace.width - trace.topWidth)
  return { ...section, gap, trace: { ...trace, width, topWidth } }
}

/** Preferred numbers of ISO 3:1973, series R20 of a decade; R10 and R5 are every second and fourth of it. */
const PER_DECADE = [
  1, 1.12, 1.25, 1.4, 1.6, 1.8, 2, 2.24, 2.5, 2.8, 3.15, 3.55, 4, 4.5, 5, 5.6, 6.3, 7.1, 8, 9,
]
const [R20, R10, R5] = [1, 2, 4]

function preferred(index: number): Metres {
  const decade = Math.floor(index / PER_DECADE.length)
  const mantissa = PER_DECADE[index - decade * PER_DECADE.length] ?? NaN
  return Number(`${mantissa}e${decade}`)
}

/** Index of the largest of every `step` preferred numbers that is not above a size, but for rounding. */
function indexBelow(size: Metres, step: number): number {
  let index = step * Math.floor((PER_DECADE.length * Math.log10(size)) / step)
  while (preferred(index) > size * (1 + SAME)) index -= step
  while (preferred(index + step) <= size * (1 + SAME)) index += step
  return index
}

const SAME: Ratio = 1e-6

/** Linear in the logarithm between neighbours of series R10; one alone where a size is of the series. */
function straight(size: Metres): Node[] {
  const index = indexBelow(size, R10)
  const [low, high] = [preferred(index), preferred(index + R10)]
  const share = Math.max(0, Math.log(size / low) / Math.log(high / low))
  if (share < SAME) return [{ value: low, weight: 1 }]
  return [
    { value: low, weight: 1 - share },
    { value: high, weight: share },
  ]
}

/**
 * The parabola over the square root of the gap through three of series R5: coupling falls as a power close by and
 * exponentially far off, and the root bends least for both.
 */
function curved(gap: Metres): Node[] {
  const index = indexBelow(gap, R5)
  const values = [index - R5, index, index + R5].map(preferred)
  const at = Math.sqrt(gap)
  return values
    .map((value, own) => ({
      value,
      weight: values.reduce(
        (product, other, place) =>
          place === own
            ? product
            : (product * (at - Math.sqrt(other))) / (Math.sqrt(value) - Math.sqrt(other)),
        1,
      ),
    }))
    .filter(({ weight }) => Math.abs(weight) > SAME)
}

/** Nearest of series R20: the neighbour's own width hardly matters. */
function nearest(size: Metres): Metres {
  const index = indexBelow(size, R20)
  const [low, high] = [preferred(index), preferred(index + R20)]
  return size / low < high / size ? low : high
}
