import type { Ohms, OhmMetres } from './quantity.ts'

/** Speed of light in vacuum, m/s; exact by definition of the metre (SI brochure, 9th ed., 2019). */
export const SPEED_OF_LIGHT = 299_792_458

/**
 * Vacuum magnetic permeability, H/m: CODATA 2018, 1.256 637 062 12(19)e-6
 * (https://physics.nist.gov/cgi-bin/cuu/Value?mu0). Within 6e-10 of 4π·1e-7.
 */
export const MAGNETIC_CONSTANT = 1.25663706212e-6

/** Wave impedance of free space µ0 c, ohm: 376.730 313 668 (CODATA 2018). */
export const FREE_SPACE_IMPEDANCE: Ohms = MAGNETIC_CONSTANT * SPEED_OF_LIGHT

/** Vacuum electric permittivity 1/(µ0 c²), F/m (CODATA 2018). */
export const ELECTRIC_CONSTANT = 1 / (MAGNETIC_CONSTANT * SPEED_OF_LIGHT * SPEED_OF_LIGHT)

/** Resistivity of annealed copper at 20 °C: IEC 60028 (1925), 1/58 ohm mm²/m. */
export const COPPER_RESISTIVITY: OhmMetres = 1.7241e-8
