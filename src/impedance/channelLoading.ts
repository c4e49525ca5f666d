import { SPEED_OF_LIGHT } from '../units/constants.ts'
import type { Hertz, Metres, Ratio } from '../units/quantity.ts'
import { BoundedMemory } from '../numerics/boundedMemory.ts'
import type { CrossSection } from '../section/crossSection.ts'
import type { Surroundings } from '../section/surroundings.ts'
import type { ModeConstants } from './estimate.ts'
import { breakoutVerdict } from './field/breakoutLine.ts'
import { ifSolvable } from '../numerics/ifSolvable.ts'
import { physicsKey } from './physicsKey.ts'
import { permittivityIn } from './permittivityIn.ts'

/** What a full channel of vias adds to a line in its middle, over the same line between solid planes. */
export interface Loading {
  /** Share by which capacitance and inductance are more; negative where they are less. */
  readonly capacitance: Ratio
  readonly inductance: Ratio
}

/**
 * The loading of a single trace, or of the odd mode of a pair, by both sides of a channel, averaged along the via
 * pitch. `frequency` (Hz) is where permittivities are taken. Equal questions are answered once and remembered.
 *
 * It changes slowly with the sizes of the line, so it is solved for the nearest of a series and scaled. Measured half a
 * step off the series, in striplines and on coated outer layers, 80 µm and more from what stands beside: within 5 % of
 * itself or of 0.01 for pairs (worst of 183 pairs of 60 to 130 µm at gaps of 60 to 150 µm: 4.8 %), or of 0.05 for single
 * traces (worst of 791 of 60 to 133 µm: 4.8 %; 99 of 100 within 3.1 %).
 *
 * Null where the surroundings leave no room for the line, as when a pad touches it.
 */
export function channelLoading(
  section: CrossSection,
  frequency: Hertz,
  surroundings: Surroundings,
): Loading | null {
  const near = nearOfSeries(section)
  const solved = near && solvedLoading(near.section, frequency, surroundings)
  // Where the line of the series has no room, the true one may.
  if (!solved) return solvedLoading(section, frequency, surroundings)
  return { capacitance: near.scale * solved.capacitance, inductance: near.scale * solved.inductance }
}

/** Twenty sizes to a decade, as in series R20 of ISO 3:1973. */
const PER_DECADE = 20
/** Two traces against each other act at a distance like a dipole, with the square of how far they are apart. */
const BY_DISTANCE = 2
/** Found by measurement, as the rest of the doc block of `channelLoading`. */
const BY_WIDTH = { single: 0.5, pair: 0.3 }
/** A pair is not read off one whose gap is a smaller share of its own: its traces would hide each other. */
const TIGHTEST: Ratio = 0.5

/**
 * The nearest line of the series, its traces as far apart by their middles as the nearest distance of it, and what its
 * loading is to be multiplied by; null where none is near enough.
 */
function nearOfSeries(section: CrossSection): { section: CrossSection; scale: Ratio } | null {
  const { width } = section.trace
  const like = preferred(width)
  if (section.gap === null) {
    return { section: withWidth(section, like), scale: (width / like) ** BY_WIDTH.single }
  }
  const apart = preferred(width + section.gap)
  if (apart - like < TIGHTEST * section.gap) return null
  return {
    section: { ...withWidth(section, like), gap: apart - like },
    scale: ((width + section.gap) / apart) ** BY_DISTANCE * (width / like) ** BY_WIDTH.pair,
  }
}

/** The nearest number of the series, whose numbers stand in equal ratios. */
function preferred(size: Metres): Metres {
  return 10 ** (Math.round(PER_DECADE * Math.log10(size)) / PER_DECADE)
}

function withWidth(section: CrossSection, width: Metres): CrossSection {
  const { trace } = section
  return { ...section, trace: { ...trace, width, topWidth: width - (trace.width - trace.topWidth) } }
}

function solvedLoading(section: CrossSection, frequency: Hertz, surroundings: Surroundings): Loading | null {
  const key = `${physicsKey(section, permittivityIn(frequency))}|${JSON.stringify(surroundings)}`
  return known.recall(key, () => loadingOf(section, frequency, surroundings))
}

/** Most of the error of a coarse solution is the same with the vias and without them, and drops out of the share. */
const REFINEMENT = { levels: 0, order: 2 }

const known = new BoundedMemory<Loading | null>(5000)

function loadingOf(section: CrossSection, frequency: Hertz, surroundings: Surroundings): Loading | null {
  return ifSolvable(() => {
    const mode = breakoutVerdict(section, surroundings, permittivityIn(frequency), REFINEMENT)
    const solid = perLength(mode.solid)
    return {
      capacitance: mode.capacitance / solid.capacitance - 1,
      inductance: mode.inductance / solid.inductance - 1,
    }
  })
}

function perLength({ impedance, effectivePermittivity }: ModeConstants): Loading {
  const delay = Math.sqrt(effectivePermittivity) / SPEED_OF_LIGHT
  return { capacitance: delay / impedance, inductance: delay * impedance }
}
