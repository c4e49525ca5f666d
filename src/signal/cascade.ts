import type { Ohms, Seconds } from '../units/quantity.ts'

/** Uniform lossless sections in series between two resistive worlds, as seen by a wave that arrives from `before`. */
export interface Cascade {
  /** Impedance of the line the wave arrives on. */
  readonly before: Ohms
  readonly sections: readonly UniformSection[]
  /** Impedance of the line that carries on, or of the device that ends it. */
  readonly after: Ohms
}

/** A uniform lossless line. */
export interface UniformLine {
  readonly impedance: Ohms
  /** One way. */
  readonly delay: Seconds
}

export interface UniformSection extends UniformLine {
  /** A line, open at its far end, that hangs in parallel where the section begins, on the side of `before`. */
  readonly hanging?: UniformLine | null
}

/** (to − from)/(to + from): the share of a wave that comes back from a step of impedance. */
export function reflectionAt(from: Ohms, to: Ohms): number {
  return (to - from) / (to + from)
}

/** From one end to the other; lines that hang beside add nothing. */
export function delayOf(sections: readonly UniformSection[]): Seconds {
  return sections.reduce((sum, section) => sum + section.delay, 0)
}

/** Throws RangeError unless every impedance is positive and every delay non-negative, all finite. */
export function assertCascade({ before, sections, after }: Cascade): void {
  for (const impedance of [before, after]) assertImpedance(impedance)
  for (const { hanging, ...section } of sections) {
    assertLine(section)
    if (hanging) assertLine(hanging)
  }
}

function assertLine({ impedance, delay }: UniformLine): void {
  assertImpedance(impedance)
  if (!(delay >= 0 && Number.isFinite(delay))) {
    throw new RangeError(`delay must be 0 or more and finite, got ${delay} s`)
  }
}

function assertImpedance(impedance: Ohms): void {
  if (!(impedance > 0 && Number.isFinite(impedance))) {
    throw new RangeError(`impedance must be above 0 and finite, got ${impedance} ohm`)
  }
}
