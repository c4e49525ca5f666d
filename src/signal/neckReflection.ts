import type { Ohms } from '../units/quantity.ts'
import type { UniformSection } from './cascade.ts'
import type { EdgeShape } from './edge.ts'
import type { PeakReflection } from './netSignal.ts'
import { reflectedPeak } from './reflectedPeak.ts'
import { shortSectionPeak } from './shortSection.ts'

/** The narrow stretch of one end, from the main route towards the device: neck, via, dog-bone. */
export interface NeckCase {
  readonly main: Ohms
  readonly sections: readonly UniformSection[]
  readonly edge: EdgeShape
}

/**
 * Peak of what a neck sends back into the main route when main route lies on both sides of it, signed and as
 * a share of the edge: by short-section theory, and exactly by its spectrum.
 *
 * Throws RangeError unless impedances and the rise time are positive and delays non-negative.
 */
export function neckBetweenMain(neck: NeckCase): PeakReflection {
  return neckBeforeDevice(neck, neck.main)
}

/**
 * Change that a neck makes to the reflection of the device behind it, signed peak as a share of the edge.
 *
 * The device itself reflects Γ_d = (device − main)/(device + main) with or without a neck. What the neck adds
 * is the difference from the same device at the end of an equally long stretch of main route: waves are
 * compared at equal travel time, so that a neck of the main route's impedance makes no difference at all.
 */
export function neckBeforeDevice({ main, sections, edge }: NeckCase, device: Ohms): PeakReflection {
  const cascade = { before: main, sections, after: device }
  return { shortSection: shortSectionPeak(cascade, edge), exact: reflectedPeak(cascade, edge) }
}
