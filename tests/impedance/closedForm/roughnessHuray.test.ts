import { describe, expect, it } from 'vitest'
import { roughnessHuray } from '../../../src/impedance/closedForm/roughnessHuray.ts'
import { skinDepth } from '../../../src/impedance/closedForm/skinEffect.ts'

const DEPTH = skinDepth(1.7241e-8, 10e9)

describe('roughnessHuray', () => {
  it('has the check value of an independent implementation, spheres of 0.5 um over all the area, 10 GHz', () => {
    const surface = { baseAreaRatio: 1, nodules: [{ radius: 0.5e-6, areaRatio: 1 }] }
    expect(roughnessHuray(surface, DEPTH) / 1.4694637923).toBeCloseTo(1, 9)
  })

  it('is the base without nodules and adds up what nodules of several sizes do', () => {
    expect(roughnessHuray({ baseAreaRatio: 1.1, nodules: [] }, DEPTH)).toBe(1.1)
    const [small, large] = [
      { radius: 0.3e-6, areaRatio: 0.7 },
      { radius: 0.9e-6, areaRatio: 0.4 },
    ]
    const alone = (nodule: typeof small): number =>
      roughnessHuray({ baseAreaRatio: 0, nodules: [nodule] }, DEPTH)
    const both = roughnessHuray({ baseAreaRatio: 1, nodules: [small, large] }, DEPTH)
    expect(both).toBeCloseTo(1 + alone(small) + alone(large), 14)
  })

  it('tends to one and a half times the surface of the spheres as frequency rises', () => {
    const surface = { baseAreaRatio: 1, nodules: [{ radius: 1e-6, areaRatio: 2 }] }
    expect(roughnessHuray(surface, 1e-15)).toBeCloseTo(4, 8)
  })

  it('refuses spheres without radius, negative areas and no skin depth', () => {
    expect(() => roughnessHuray({ baseAreaRatio: 1, nodules: [{ radius: 0, areaRatio: 1 }] }, DEPTH)).toThrow(
      /nodules/,
    )
    expect(() =>
      roughnessHuray({ baseAreaRatio: 1, nodules: [{ radius: 1, areaRatio: -1 }] }, DEPTH),
    ).toThrow(/nodules/)
    expect(() => roughnessHuray({ baseAreaRatio: -1, nodules: [] }, DEPTH)).toThrow(/base area/)
    expect(() => roughnessHuray({ baseAreaRatio: 1, nodules: [] }, 0)).toThrow(/skin depth/)
  })
})
