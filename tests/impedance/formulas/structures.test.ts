import { describe, expect, it } from 'vitest'
import {
  isBareCoplanar,
  isBareMicrostrip,
  isCoatedCoplanar,
  isCoatedMicrostrip,
  isCoplanarStripline,
  isEmbeddedCoplanar,
  isEmbeddedMicrostrip,
  isSingleStripline,
} from '../../../src/impedance/formulas/structures.ts'
import { lineSection, type SectionShape } from '../../helpers/lineSection.ts'

const PREDICATES = {
  isBareMicrostrip,
  isCoatedMicrostrip,
  isEmbeddedMicrostrip,
  isSingleStripline,
  isBareCoplanar,
  isCoatedCoplanar,
  isEmbeddedCoplanar,
  isCoplanarStripline,
}
const bare: SectionShape = { width: 1e-4, thickness: 2e-5, below: [[1e-4, 4]] }
const mask = { overLaminate: 2e-5, overTrace: 1e-5, permittivity: 3.5 }
const above = [[1e-4, 4]] as const
const beside = { coplanarGap: 1e-4 }

describe('the structures of a single trace', () => {
  it.each<[string, SectionShape]>([
    ['isBareMicrostrip', bare],
    ['isCoatedMicrostrip', { ...bare, mask }],
    ['isEmbeddedMicrostrip', { ...bare, above }],
    ['isEmbeddedMicrostrip', { ...bare, above, mask }],
    ['isSingleStripline', { ...bare, above, twoPlanes: true }],
    ['isBareCoplanar', { ...bare, ...beside }],
    ['isCoatedCoplanar', { ...bare, mask, ...beside }],
    ['isEmbeddedCoplanar', { ...bare, above, ...beside }],
    ['isEmbeddedCoplanar', { ...bare, above, mask, ...beside }],
    ['isCoplanarStripline', { ...bare, above, twoPlanes: true, ...beside }],
  ])('are exactly one: %s', (name, shape) => {
    const section = lineSection(shape)
    const holding = Object.entries(PREDICATES).filter(([, predicate]) => predicate(section))
    expect(holding.map(([key]) => key)).toEqual([name])
  })

  it('are none for a pair', () => {
    const pair = lineSection({ ...bare, gap: 1e-4 })
    expect(Object.values(PREDICATES).some((predicate) => predicate(pair))).toBe(false)
  })
})
