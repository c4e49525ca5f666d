/** What a quantity in a description or a command measures. */
export type Dimension =
  | 'length'
  | 'copper thickness'
  | 'time'
  | 'frequency'
  | 'impedance'
  | 'ratio'
  | 'bit rate'
  | 'symbol rate'
  | 'attenuation'
  | 'angle'
  | 'delay per length'
  | 'resistivity'

interface DimensionWords {
  /** With its article, as in "5 ps is a time". */
  readonly noun: string
  /** A typical quantity, shown wherever one is wanted. */
  readonly example: string
  /** Unit that a bare number is shown with: "write 0.1 mm, not 0.1". */
  readonly usualUnit: string
}

/** Each dimension as messages name it. */
export const DIMENSION_WORDS: Readonly<Record<Dimension, DimensionWords>> = {
  length: { noun: 'a length', example: '0.1 mm', usualUnit: 'mm' },
  'copper thickness': { noun: 'a copper thickness or weight', example: '0.5 oz', usualUnit: 'oz' },
  time: { noun: 'a time', example: '60 ps', usualUnit: 'ps' },
  frequency: { noun: 'a frequency', example: '1 GHz', usualUnit: 'GHz' },
  impedance: { noun: 'an impedance', example: '50 ohm', usualUnit: 'ohm' },
  ratio: { noun: 'a ratio', example: '10 %', usualUnit: '%' },
  'bit rate': { noun: 'a bit rate', example: '3.2 Gb/s', usualUnit: 'Gb/s' },
  'symbol rate': { noun: 'a symbol rate', example: '1.6 GBd', usualUnit: 'GBd' },
  attenuation: { noun: 'an attenuation per length', example: '0.5 dB/in', usualUnit: 'dB/in' },
  angle: { noun: 'an angle', example: '70 deg', usualUnit: 'deg' },
  'delay per length': { noun: 'a delay per length', example: '6.9 ps/mm', usualUnit: 'ps/mm' },
  resistivity: { noun: 'a resistivity', example: '1.72e-8 ohm m', usualUnit: 'ohm m' },
}
