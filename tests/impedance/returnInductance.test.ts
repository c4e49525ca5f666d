import { describe, expect, it } from 'vitest'
import { returnInductance } from '../../src/impedance/returnInductance.ts'
import type { Point } from '../../src/units/quantity.ts'
import { wireReferences, type WireReference } from '../helpers/viaReferences.ts'

const MAGNETIC = 4e-7 * Math.PI

function inductanceOf({ wires, radius }: WireReference): number {
  const of = (role: 'signal' | 'partner' | 'return'): Point[] => wires.filter((wire) => wire.role === role)
  const [signal] = of('signal')
  if (signal === undefined) throw new Error('no signal')
  return returnInductance({ signal, partner: of('partner')[0] ?? null, returns: of('return') }, radius)
}

/** Radius over the smallest distance of two wires. */
function closenessOf({ wires, radius }: WireReference): number {
  const distances = wires.flatMap((one, index) =>
    wires.slice(index + 1).map((other) => Math.hypot(one.x - other.x, one.y - other.y)),
  )
  return radius / Math.min(...distances)
}

/** Radius over distance up to which the inductance exceeds the reference by no more than this share; measured, rounded up. */
const BOUNDS = [
  { closeness: 0.066, most: 0.0021 },
  { closeness: 0.151, most: 0.024 },
  { closeness: 0.201, most: 0.037 },
  { closeness: 0.251, most: 0.101 },
  { closeness: 0.351, most: 0.325 },
  { closeness: 0.46, most: 0.38 },
]

describe('the inductance of a barrel among others', () => {
  // reference/via/barrelInductance.json: circular harmonics, the current crowding to where wires face each other.
  it.each(wireReferences())(
    'is that of wires with current on their surface, or more as they come close: $name',
    (row) => {
      const excess = inductanceOf(row) / row.inductancePerMetre - 1
      const bound = BOUNDS.find(({ closeness }) => closenessOf(row) <= closeness)
      expect(excess).toBeGreaterThan(-row.bound)
      expect(excess).toBeLessThan(bound?.most ?? NaN)
    },
  )

  it('is compared where barrels under balls stand, a radius of 0.05 to 0.2 of the distance, and closer', () => {
    const closeness = wireReferences().map(closenessOf)
    expect(closeness).toHaveLength(47)
    expect(closeness.filter((each) => each <= 0.201).length).toBeGreaterThanOrEqual(25)
  })

  const here = { x: 0, y: 0 }
  const a = 0.1e-3

  // Textbook, from memory: two round wires, (µ0/π) arcosh(s/2a).
  it.each([
    { apart: 4e-3, most: 7e-4 },
    { apart: 2e-3, most: 1e-3 },
    { apart: 1e-3, most: 5e-3 },
  ])('with one return $apart m away is (µ0/π) arcosh(s/2a), thin wires', ({ apart, most }) => {
    const exact = (MAGNETIC / Math.PI) * Math.acosh(apart / (2 * a))
    const there = { x: 0, y: apart }
    const single = returnInductance({ signal: here, partner: null, returns: [there] }, a)
    const pair = returnInductance({ signal: here, partner: there, returns: [] }, a)
    expect(Math.abs(single / exact - 1)).toBeLessThan(most)
    expect(pair).toBeCloseTo(single, 18)
  })

  // Textbook, from memory: images in a perfectly conducting circle of filaments; thin wires on a circle share alike.
  it.each([2, 3, 4, 8])('with %i returns on a circle is (µ0/2π)(ln(s/a) + ln(s/(n a))/n)', (count) => {
    const s = 1e-3
    const thin = 1e-6
    const returns = Array.from({ length: count }, (_, index) => {
      const angle = 0.3 + (2 * Math.PI * index) / count
      return { x: s * Math.cos(angle), y: s * Math.sin(angle) }
    })
    const exact = (MAGNETIC / (2 * Math.PI)) * (Math.log(s / thin) + Math.log(s / (count * thin)) / count)
    const found = returnInductance({ signal: here, partner: null, returns }, thin)
    expect(found / exact).toBeCloseTo(1, 8)
  })

  it('falls with every return, also those of a pair', () => {
    const returns = [
      { x: 1e-3, y: 0 },
      { x: 0, y: 1e-3 },
      { x: -1e-3, y: 2e-3 },
    ]
    const partner = { x: -0.8e-3, y: 0 }
    for (const of of [null, partner]) {
      const values = [1, 2, 3].map((count) =>
        returnInductance({ signal: here, partner: of, returns: returns.slice(0, count) }, a),
      )
      expect(values[1]).toBeLessThan(values[0] ?? NaN)
      expect(values[2]).toBeLessThan(values[1] ?? NaN)
    }
  })

  it('does not change as the whole is moved, turned and numbered anew', () => {
    const returns = [
      { x: 1e-3, y: 0 },
      { x: 0, y: 1.4e-3 },
    ]
    const moved = ({ x, y }: Point): Point => ({ x: 3e-3 - y, y: x - 2e-3 })
    const one = returnInductance({ signal: here, partner: null, returns }, a)
    const other = returnInductance(
      { signal: moved(here), partner: null, returns: returns.map(moved).reverse() },
      a,
    )
    expect(other / one).toBeCloseTo(1, 12)
  })

  it('is refused without a way back, a radius, or a distance', () => {
    const there = { x: 1e-3, y: 0 }
    expect(() => returnInductance({ signal: here, partner: null, returns: [] }, a)).toThrow(/way back/)
    for (const radius of [0, -1e-4, NaN]) {
      expect(() => returnInductance({ signal: here, partner: null, returns: [there] }, radius)).toThrow(
        RangeError,
      )
    }
    expect(() => returnInductance({ signal: here, partner: null, returns: [here] }, a)).toThrow(/stand apart/)
    expect(() => returnInductance({ signal: here, partner: here, returns: [] }, a)).toThrow(/stand apart/)
    expect(() => returnInductance({ signal: here, partner: null, returns: [there, there] }, a)).toThrow(
      /stand apart/,
    )
  })
})
