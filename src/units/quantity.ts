/**
 * Physical quantities as numbers that name their SI unit. A plain number is accepted where a
 * quantity is wanted; a quantity of another unit is a type error.
 */
declare const unit: unique symbol

export type Quantity<Unit extends string> = number & { readonly [unit]?: Unit }

export type Metres = Quantity<'m'>
export type Seconds = Quantity<'s'>
export type Hertz = Quantity<'Hz'>
export type Ohms = Quantity<'ohm'>
export type OhmMetres = Quantity<'ohm m'>
export type Farads = Quantity<'F'>
export type FaradsPerMetre = Quantity<'F/m'>
export type HenriesPerMetre = Quantity<'H/m'>
export type SecondsPerMetre = Quantity<'s/m'>
export type NepersPerMetre = Quantity<'Np/m'>
export type SymbolsPerSecond = Quantity<'Bd'>
export type BitsPerSecond = Quantity<'bit/s'>
export type Radians = Quantity<'rad'>
/** A pure number: relative permittivity, loss tangent, tolerance as a fraction, reflection. */
export type Ratio = Quantity<'1'>

export interface Complex {
  readonly re: number
  readonly im: number
}

export interface Point {
  readonly x: Metres
  readonly y: Metres
}

/** What lengths are printed in; kept with each board. */
export type LengthUnit = 'mm' | 'mil'
