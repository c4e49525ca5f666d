import type { CentredStripline } from '../../src/impedance/closedForm/striplineLine.ts'
import type { MicrostripLine } from '../../src/impedance/closedForm/microstripLine.ts'
import type { OffsetStripline } from '../../src/impedance/closedForm/offsetStripline.ts'

/** Short ways to write line shapes; lengths in micrometres, permittivity last. */
const METRES = 1e-6

export function microstrip(
  width: number,
  height: number,
  thickness: number,
  permittivity: number,
): MicrostripLine {
  return {
    width: width * METRES,
    height: height * METRES,
    thickness: thickness * METRES,
    relativePermittivity: permittivity,
  }
}

export function centred(
  width: number,
  spacing: number,
  thickness: number,
  permittivity: number,
): CentredStripline {
  return {
    width: width * METRES,
    spacing: spacing * METRES,
    thickness: thickness * METRES,
    relativePermittivity: permittivity,
  }
}

export function offset(
  width: number,
  thickness: number,
  below: number,
  above: number,
  permittivity: number,
): OffsetStripline {
  return {
    width: width * METRES,
    thickness: thickness * METRES,
    below: below * METRES,
    above: above * METRES,
    relativePermittivity: permittivity,
  }
}

/** The same shape in lengths ten times as large: nothing that a static formula says may change. */
export function tenfold<Shape extends object>(shape: Shape): Shape {
  const lengths = ['width', 'height', 'thickness', 'spacing', 'below', 'above', 'gap', 'coverThickness']
  return Object.fromEntries(
    Object.entries(shape).map(([key, value]) => [
      key,
      lengths.includes(key) ? 10 * (value as number) : (value as unknown),
    ]),
  ) as Shape
}
