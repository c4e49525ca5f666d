/**
 * A value that the description left out and the tool filled in. It travels with the thing it
 * belongs to, so that every result and every printed number can say what it rests on.
 */
export interface Assumption {
  /** Where in the description the value would stand, e.g. `stackup.layers[3].permittivity`. */
  readonly path: string
  /** What it is, in words, e.g. `relative permittivity of prepreg 2`. */
  readonly quantity: string
  /** The value used, with its unit, as printed. */
  readonly value: string
  /** Whence the value: a citation, or 'common practice, no source'. */
  readonly source: string
}
