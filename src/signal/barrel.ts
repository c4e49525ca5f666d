import type { DielectricLayer, Stackup } from '../board/stackup.ts'
import { SPEED_OF_LIGHT } from '../units/constants.ts'
import type { Metres, Ratio, Seconds } from '../units/quantity.ts'

export const BARREL_METHOD =
  'could not be solved: barrel depth over the speed of light in the dielectric around it; pads and barrel hanging beyond the exit layer are left out'

/**
 * Mean permittivity of the dielectric that a barrel stands in between two copper layers, so weighted that
 * depth · √ε / c is the travel time through the sheets one after the other: √ε = Σ t √εr / Σ t.
 *
 * The values are the sheets' own, at the frequency each is stated for.
 * Throws RangeError when nothing lies between the two layers.
 */
export function permittivityAlong(stackup: Stackup, firstLayer: number, lastLayer: number): Ratio {
  const sheets = sheetsBetween(stackup, Math.min(firstLayer, lastLayer), Math.max(firstLayer, lastLayer))
  const thickness = sheets.reduce((sum, sheet) => sum + sheet.thickness, 0)
  if (!(thickness > 0)) {
    throw new RangeError(`no dielectric lies between copper layers ${firstLayer} and ${lastLayer}`)
  }
  const weighted = sheets.reduce(
    (sum, { thickness: t, permittivity }) => sum + t * Math.sqrt(permittivity.relative),
    0,
  )
  return (weighted / thickness) ** 2
}

export function barrelDelay(depth: Metres, permittivity: Ratio): Seconds {
  return (depth * Math.sqrt(permittivity)) / SPEED_OF_LIGHT
}

function sheetsBetween(stackup: Stackup, upper: number, lower: number): DielectricLayer[] {
  let copperAbove = 0
  return stackup.layers.filter((layer): layer is DielectricLayer => {
    if (layer.kind === 'copper') copperAbove = layer.number
    return layer.kind === 'dielectric' && copperAbove >= upper && copperAbove < lower
  })
}
