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
 * That of a single trace changes slowly with its width, so it is solved for the widths of a series and taken as
 * straight between them: within 1 % of itself from one to the next. That of a pair is solved for the nearest pair of a
 * series and scaled: within 5 % of itself, or of 0.01 where it is less (worst of 183 pairs of 60 to 130 µm at gaps of 60 to
 * 150 µm, in striplines and on coated outer layers, 80 µm and more from what stands beside them: 4.8 %).
 *
 * Null where the surroundings leave no room for the line, as when a pad touches it.
 */
export function channelLoading(
  section: CrossSection,
  frequency: Hertz,
  surroundings: Surroundings,
): Loading | null {
  const { width } = section.trace
  if (section.gap !== null) return pairLoading(section, section.gap, frequency, surroundings)
  const solved = (of: Metres): Loading | null =>
    solvedLoading(withWidth(section, of), frequency, surroundings)
  const above = WIDTHS.findIndex((each) => each >= width * (1 - SAME_WIDTH))
  const [low, high] = [WIDTHS[above - 1], WIDTHS[above]]
  if (low === undefined || high === undefined) return solved(width)
  if (high <= width * (1 + SAME_WIDTH)) return solved(high)
  const [narrower, wider] = [solved(low), solved(high)]
  // Where the wider trace has no room, the true one may.
  if (narrower === null || wider === null) return solved(width)
  const share = (width - low) / (high - low)
  const between = (of: (loading: Loading) => Ratio): Ratio =>
    of(narrower) + share * (of(wider) - of(narrower))
  return {
    capacitance: between((loading) => loading.capacitance),
    inductance: between((loading) => loading.inductance),
  }
}

/** Preferred numbers, series R10 of ISO 3:1973. */
const WIDTHS: readonly Metres[] = [
  40e-6, 50e-6, 63e-6, 80e-6, 100e-6, 125e-6, 160e-6, 200e-6, 250e-6, 315e-6, 400e-6,
]
const SAME_WIDTH: Ratio = 0.01

/** Sizes that pairs are solved for: twenty to a decade, as in series R20 of ISO 3:1973. */
const PER_DECADE = 20
/** Two traces against each other act at a distance like a dipole, with the square of how far they are apart. */
const BY_DISTANCE = 2
/** Found by measurement, as the rest of the doc block of `channelLoading`. */
const BY_WIDTH = 0.3
/** A pair is not read off one whose gap is a smaller share of its own: its traces would hide each other. */
const TIGHTEST: Ratio = 0.5

/** From the nearest traces of the series whose middles are as far apart as the nearest distance of it. */
function pairLoading(
  section: CrossSection,
  gap: Metres,
  frequency: Hertz,
  surroundings: Surroundings,
): Loading | null {
  const { width } = section.trace
  const [like, apart] = [preferred(width), preferred(width + gap)]
  const solved =
    apart - like < TIGHTEST * gap
      ? null
      : solvedLoading({ ...withWidth(section, like), gap: apart - like }, frequency, surroundings)
  // Where the pair of the series has no room, the true one may.
  if (solved === null) return solvedLoading(section, frequency, surroundings)
  const scale = ((width + gap) / apart) ** BY_DISTANCE * (width / like) ** BY_WIDTH
  return { capacitance: scale * solved.capacitance, inductance: scale * solved.inductance }
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
