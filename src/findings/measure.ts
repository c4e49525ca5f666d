import type { Farads, Hertz, Metres, Ohms, Ratio, Seconds } from '../units/quantity.ts'
import type { Measure, MeasureUnit } from './finding.ts'

/** Figures of a finding, by unit. Throw RangeError when the value is not finite: it would have no print. */

export function metres(what: string, value: Metres): Measure {
  return measure(what, value, 'm')
}

export function ohms(what: string, value: Ohms, band: number | null = null): Measure {
  return measure(what, value, 'ohm', band)
}

export function seconds(what: string, value: Seconds): Measure {
  return measure(what, value, 's')
}

export function hertz(what: string, value: Hertz): Measure {
  return measure(what, value, 'Hz')
}

export function farads(what: string, value: Farads): Measure {
  return measure(what, value, 'F')
}

/** Printed in per cent. */
export function fraction(what: string, value: Ratio): Measure {
  return measure(what, value, 'fraction')
}

/** Of things, or a ratio that nobody prints in per cent. */
export function count(what: string, value: number): Measure {
  return measure(what, value, 'count')
}

export function layer(what: string, number: number): Measure {
  return measure(what, number, 'layer')
}

/** Words alone. */
export function words(what: string): Measure {
  return measure(what, 0, 'text')
}

function measure(what: string, value: number, unit: MeasureUnit, band: number | null = null): Measure {
  if (!Number.isFinite(value)) throw new RangeError(`${what} is not a finite number: ${value}`)
  return { what, value, unit, band }
}
