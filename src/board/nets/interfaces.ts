import ddr4 from '../../../reference/interfaces/ddr4.json' with { type: 'json' }
import ddr5 from '../../../reference/interfaces/ddr5.json' with { type: 'json' }
import ethernet from '../../../reference/interfaces/1000base-t.json' with { type: 'json' }
import genericSlow from '../../../reference/interfaces/generic-slow.json' with { type: 'json' }
import lpddr4 from '../../../reference/interfaces/lpddr4.json' with { type: 'json' }
import lvds from '../../../reference/interfaces/lvds.json' with { type: 'json' }
import mipi from '../../../reference/interfaces/mipi-d-phy.json' with { type: 'json' }
import pcie3 from '../../../reference/interfaces/pcie-gen3.json' with { type: 'json' }
import pcie4 from '../../../reference/interfaces/pcie-gen4.json' with { type: 'json' }
import usb2 from '../../../reference/interfaces/usb2.json' with { type: 'json' }
import usb3 from '../../../reference/interfaces/usb3.json' with { type: 'json' }
import { classSchema, type ClassText } from '../schema/classSchema.ts'
import { leavesWith } from '../schema/leaves.ts'

/** Planning values of an interface for one structure of line. */
export interface Preset {
  readonly interface: string
  readonly title: string
  readonly structure: 'single' | 'pair'
  readonly values: ClassText
  /** Source of each value by its key; `neck_allowance` says `none found` where there is none. */
  readonly sources: Readonly<Record<string, string>>
}

interface PresetTable {
  readonly values: object
  readonly sources: Readonly<Record<string, string>>
}

interface InterfaceTable {
  readonly name: string
  readonly title: string
  readonly single?: PresetTable
  readonly pair?: PresetTable
}

const TABLES: readonly InterfaceTable[] = [
  ...[ddr4, ddr5, lpddr4, pcie3, pcie4, usb2, usb3, mipi, lvds, ethernet, genericSlow],
]

export const INTERFACE_NAMES: readonly string[] = TABLES.map(({ name }) => name)

/** Structures for which an interface has values; empty where there is no such interface. */
export function structuresOf(name: string): readonly ('single' | 'pair')[] {
  const table = TABLES.find((entry) => entry.name === name)
  return (['single', 'pair'] as const).filter((structure) => table?.[structure] !== undefined)
}

/** Values of an interface; null where it, or that structure of it, is not in the tables. */
export function interfacePreset(name: string, structure: 'single' | 'pair'): Preset | null {
  const table = TABLES.find((entry) => entry.name === name)
  const part = table?.[structure]
  if (table === undefined || part === undefined) return null
  const values = classSchema(leavesWith(null)).parse({ name, structure, ...part.values })
  return { interface: name, title: table.title, structure, values, sources: part.sources }
}
