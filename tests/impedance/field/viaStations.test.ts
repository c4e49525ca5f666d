import { describe, expect, it } from 'vitest'
import { type Station, viaStations } from '../../../src/impedance/field/viaStations.ts'
import type { Surroundings } from '../../../src/section/surroundings.ts'

const plane = (antipad: number | null) => ({ antipad, thickness: 17e-6, behind: 100e-6 })
const around: Surroundings = {
  viaPitch: 800e-6,
  halfChannel: 400e-6,
  barrel: 200e-6,
  pad: 400e-6,
  grounded: true,
  planeBelow: plane(600e-6),
  planeAbove: plane(500e-6),
}
const mean = (stations: readonly Station[], of: (station: Station) => number): number =>
  stations.reduce((sum, station) => sum + station.share * of(station), 0)

describe('viaStations', () => {
  it.each([
    ['all shapes', around],
    ['openings alone', { ...around, grounded: false }],
    ['antipads that run into each other', { ...around, viaPitch: 500e-6 }],
    ['barrels alone', { ...around, pad: null, planeBelow: plane(null), planeAbove: null }],
  ])('share out the whole pitch: %s', (_, surroundings) => {
    const stations = viaStations(surroundings)
    expect(mean(stations, () => 1)).toBeCloseTo(1, 12)
    expect(stations.every(({ share }) => share > 0)).toBe(true)
  })

  it('give every round shape its area, over the pitch', () => {
    const stations = viaStations(around)
    const area = (diameter: number): number => (Math.PI * diameter ** 2) / 4 / around.viaPitch
    // Two or three cuts to a stretch: within a hundredth.
    expect(mean(stations, ({ antipadBelow }) => antipadBelow) / area(600e-6)).toBeCloseTo(1, 2)
    expect(mean(stations, ({ antipadAbove }) => antipadAbove) / area(500e-6)).toBeCloseTo(1, 2)
    expect(mean(stations, ({ pad }) => pad) / area(400e-6)).toBeCloseTo(1, 2)
    expect(mean(stations, ({ barrel }) => barrel) / area(200e-6)).toBeCloseTo(1, 2)
  })

  it('leave the length between the shapes to one cut without any', () => {
    const bare = viaStations(around).filter(({ antipadBelow, pad }) => antipadBelow === 0 && pad === 0)
    expect(bare).toEqual([
      { share: expect.closeTo(0.25, 12) as number, antipadBelow: 0, antipadAbove: 0, barrel: 0, pad: 0 },
    ])
  })

  it('leave barrels and pads out where the vias follow the trace', () => {
    const stations = viaStations({ ...around, grounded: false })
    expect(stations.every(({ barrel, pad }) => barrel === 0 && pad === 0)).toBe(true)
    expect(stations.some(({ antipadBelow }) => antipadBelow > 0)).toBe(true)
  })

  it('are one cut without shapes where vias connect to every plane and have no part in it', () => {
    const connected = { ...around, grounded: false, planeBelow: plane(null), planeAbove: plane(null) }
    expect(viaStations(connected)).toEqual([
      { share: 1, antipadBelow: 0, antipadAbove: 0, barrel: 0, pad: 0 },
    ])
  })
})
