import type { GridPitch } from '../board/packages.ts'
import type { Metres, Point } from '../units/quantity.ts'
import type { Field } from './field.ts'
import type { Side } from './side.ts'

/** What stands on one copper layer under the package, ball by ball. */
export interface Ground {
  readonly field: Field
  /** Where a net starts on this layer, and where its land or via stands. */
  readonly sites: readonly Point[]
  /** From the centre of what stands at a site to the nearest edge of a trace; 0 where nothing stands. */
  readonly reach: readonly Metres[]
  /** On the layer of the lands: the dog-bone vias between them; null elsewhere. */
  readonly between: { readonly sites: readonly Point[]; readonly reach: readonly Metres[] } | null
  readonly pitch: GridPitch
  readonly tolerance: Metres
}

/** Where necks end on one side: half a pitch outside the last row of this layer's grid, present or not. */
export function neckEnd(ground: Ground, side: Side): Metres {
  const { field, pitch } = ground
  const vertical = side.name === 'top' || side.name === 'bottom'
  const count = vertical ? field.rows : field.columns
  const step = side.depthPitch(pitch)
  const overhang = ground.between === null && field.dogBone ? step / 2 : 0
  const lastRow = ((count - 1) / 2) * step + overhang
  const outermost = field.aligned
    ? lastRow
    : ground.sites.reduce((far, site) => Math.max(far, side.outward(site)), lastRow)
  return outermost + step / 2
}
