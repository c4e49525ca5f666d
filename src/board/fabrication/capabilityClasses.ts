import advanced from '../../../reference/capability/advanced.json' with { type: 'json' }
import hdi from '../../../reference/capability/hdi.json' with { type: 'json' }
import standard from '../../../reference/capability/standard.json' with { type: 'json' }
import type { Metres } from '../../units/quantity.ts'
import { referenceValue } from '../referenceValue.ts'
import { fabricationSchema, type FabricationText } from '../schema/fabricationSchema.ts'
import { leavesWith } from '../schema/leaves.ts'

/** A named class of what fabricators can make, from published tables. */
export interface CapabilityClass {
  readonly name: string
  readonly title: string
  readonly source: string
  readonly date: string
  /** Every limit there is. */
  readonly limits: FabricationText
  /** What a via gets whose pad or antipad is not given. */
  readonly holes: HoleDefaults
  /** Source of each value by its key. */
  readonly sources: Readonly<Record<string, string>>
}

export interface HoleDefaults {
  readonly padOverDrill: Metres
  readonly antipadOverDrill: Metres
  readonly microviaPadOverDrill: Metres
}

const TABLES = [standard, advanced, hdi]

export const CAPABILITY_NAMES: readonly string[] = TABLES.map(({ name }) => name)

/** The class of that name; null where there is none. */
export function capabilityClass(name: string): CapabilityClass | null {
  const table = TABLES.find((entry) => entry.name === name)
  if (table === undefined) return null
  const { vias } = table
  return {
    name: table.name,
    title: table.title,
    source: table.source,
    date: table.date,
    limits: fabricationSchema(leavesWith(null)).parse(table.limits),
    holes: {
      padOverDrill: referenceValue(vias.pad_over_drill, 'length'),
      antipadOverDrill: referenceValue(vias.antipad_over_drill, 'length'),
      microviaPadOverDrill: referenceValue(vias.microvia_pad_over_drill, 'length'),
    },
    sources: table.sources,
  }
}
