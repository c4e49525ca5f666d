import copper from '../../../reference/materials/copper.json' with { type: 'json' }
import type { Metres } from '../../units/quantity.ts'
import { referenceValue } from '../referenceValue.ts'

interface Foil {
  readonly nominal: Metres
  readonly innerAllowance: Metres
  readonly outerAllowance: Metres
}

const FOILS: readonly Foil[] = copper.foils.map((row) => ({
  nominal: referenceValue(row.nominal, 'length'),
  innerAllowance: referenceValue(row.inner_allowance, 'length'),
  outerAllowance: referenceValue(row.outer_allowance, 'length'),
}))

const FOIL_MINIMUM_SHARE = copper.foil_minimum_share

const MINIMUM_PLATING: Readonly<Record<2 | 3, Metres>> = {
  2: referenceValue(copper.minimum_plating['2'], 'length'),
  3: referenceValue(copper.minimum_plating['3'], 'length'),
}

/**
 * Nominal thickness of a conductor after processing:
 *
 *     foil + plating − half the processing allowance
 *
 * The allowance of IPC-6012 (Tables 3-13, 3-14) is the most that cleaning and etching may take, so
 * the middle between none and all of it stands for the nominal. For 1/2 oz inside this gives 15.1 um;
 * a fabricator publishes 0.6 mil (15.2 um). Copper with plating follows the table of plated layers.
 */
export function nominalFinishedCopper(foil: Metres, plating: Metres, outer: boolean): Metres {
  return foil + plating - processingLoss(foil, outer || plating > 0)
}

/** What processing takes of a conductor on average: half of the maximum allowance. */
export function processingLoss(foil: Metres, plated: boolean): Metres {
  return allowance(foil, plated) / 2
}

/**
 * Least thickness that IPC-6012 lets a conductor have after processing. Inside: 0.9 foil less the
 * allowance (Table 3-13). Outside: 0.9 foil plus the minimum plating of the class less the allowance
 * (Table 3-14). Null class: an inner layer that is not plated.
 */
export function minimumFinishedCopper(foil: Metres, ipcClass: 2 | 3 | null): Metres {
  const plating = ipcClass === null ? 0 : MINIMUM_PLATING[ipcClass]
  return FOIL_MINIMUM_SHARE * foil + plating - allowance(foil, ipcClass !== null)
}

/** That of the table's foil nearest in thickness. Throws RangeError unless `foil` > 0. */
function allowance(foil: Metres, plated: boolean): Metres {
  if (!(foil > 0)) throw new RangeError(`foil thickness must be above zero, got ${foil} m`)
  const apart = (row: Foil): number => Math.abs(Math.log(row.nominal / foil))
  const nearest = FOILS.reduce((best, row) => (apart(row) < apart(best) ? row : best))
  return plated ? nearest.outerAllowance : nearest.innerAllowance
}
