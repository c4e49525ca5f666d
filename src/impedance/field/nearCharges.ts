import type { Metres } from '../../units/quantity.ts'
import type { PanelCharges } from './panelCharges.ts'

/** What is near of a panel: itself, its image in the plane, that in the lid. These are integrated in closed form. */
export const ITSELF = 1
export const IN_PLANE = 2
export const IN_LID = 4

/**
 * Makes of M / 2 and N / 2 of the line charges of a panel (see `ChargeView`), seen from (placeX, placeY), what their ratio
 * is without those that are near.
 */
export function leaveOut(
  over: Float64Array,
  under: Float64Array,
  { points, x, y }: PanelCharges,
  index: number,
  placeX: Metres,
  placeY: Metres,
  near: number,
  lid: Metres,
): void {
  // N over the square of a vanishing distance.
  const limit = 0.5 * (Math.PI / lid) * (Math.PI / lid)
  for (let which = 0; which < points; which += 1) {
    const at = index * points + which
    const across = placeX - (x[at] ?? NaN)
    const rise = placeY - (y[at] ?? NaN)
    const sum = placeY + (y[at] ?? NaN)
    const down = 2 * lid - sum
    const direct = across * across + rise * rise
    let up = 2 * (over[which] ?? NaN)
    let low = 2 * (under[which] ?? NaN)
    if ((near & IN_PLANE) > 0) up /= across * across + sum * sum
    if ((near & IN_LID) > 0) up /= across * across + down * down
    if ((near & ITSELF) > 0) low = direct === 0 ? limit : low / direct
    over[which] = up
    under[which] = low
  }
}
