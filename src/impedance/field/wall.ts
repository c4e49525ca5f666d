import type { Metres, Point, Ratio } from '../../units/quantity.ts'

/**
 * One straight piece of the boundary of a cross-section: a face of a conductor, or a dielectric interface.
 * Left and right are as seen looking from its start to its end; the dielectric of a conductor face is on the left.
 */
export interface Wall {
  readonly from: Point
  readonly to: Point
  /** Number of the conductor, GROUNDED for one held at zero volts; null for a dielectric interface. */
  readonly conductor: number | null
  readonly left: Ratio
  readonly right: Ratio
  /** Ends that are corners: the charge density may be singular there. */
  readonly cornerAtFrom: boolean
  readonly cornerAtTo: boolean
}

export const GROUNDED = -1

/** Conductors and interfaces between infinite perfect planes. */
export interface FieldProblem {
  readonly walls: readonly Wall[]
  /** How many conductors may carry a voltage: they are numbered from 0. */
  readonly conductors: number
  /** One plane lies at y = 0; another at y = `lid`, or none. */
  readonly lid: Metres | null
  /** The walls are the right half of a picture that is symmetric about x = 0. */
  readonly symmetric: boolean
}

/** Charge of the left half of a symmetric picture: equal, opposite; `whole` where there is no symmetry. */
export type Parity = 'even' | 'odd' | 'whole'
