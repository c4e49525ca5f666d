import { describe, expect, it } from 'vitest'
import type { ViaType } from '../../src/board/vias.ts'
import { viaTravel } from '../../src/routes/viaTravel.ts'
import { via } from '../escape/fixtures.ts'
import { copper, dielectric, mask, plane, stackup } from '../helpers/stackup.ts'

/** 18 um copper, dielectrics of 60, 100, 400 um; middles at 9, 87, 205 and 623 um. */
const layers = stackup(
  mask('top'),
  copper('L1'),
  dielectric('one', 60, 3.6),
  plane('L2'),
  dielectric('two', 100, 3.6),
  copper('L3'),
  dielectric('three', 400, 3.6),
  copper('L4'),
  mask('bottom'),
)
const through = via('through', { lastLayer: 4 })
const drilled = (from: 'top' | 'bottom', residualUm: number): ViaType => ({
  ...through,
  backdrill: { diameter: 0.4e-3, from, residualStub: residualUm * 1e-6 },
})

function um(travel: { depth: number; stub: number }): { depth: number; stub: number } {
  const round = (metres: number): number => Math.round(metres * 1e9) / 1e3
  return { depth: round(travel.depth), stub: round(travel.stub) }
}

describe('viaTravel', () => {
  it('measures between the middles of copper layers, mask left out', () => {
    expect(um(viaTravel(layers, through, 1, 3))).toEqual({ depth: 196, stub: 418 })
  })

  it('makes depth and stub together the whole barrel, wherever the net leaves', () => {
    for (const exit of [1, 2, 3, 4]) {
      const { depth, stub } = viaTravel(layers, through, 1, exit)
      expect(depth + stub).toBeCloseTo(614e-6, 12)
    }
  })

  it('adds up over vias in a row', () => {
    const micro = via('micro', { kind: 'microvia', lastLayer: 2 })
    const buried = via('buried', { kind: 'buried', firstLayer: 2, lastLayer: 3 })
    const sum = viaTravel(layers, micro, 1, 2).depth + viaTravel(layers, buried, 2, 3).depth
    expect(sum).toBeCloseTo(viaTravel(layers, through, 1, 3).depth, 12)
  })

  it('leaves no stub where the hole ends', () => {
    expect(viaTravel(layers, via('blind', { kind: 'blind', lastLayer: 3 }), 1, 3).stub).toBe(0)
    expect(viaTravel(layers, through, 1, 4).stub).toBe(0)
  })

  it('looks upwards from the bottom', () => {
    expect(um(viaTravel(layers, through, 4, 3))).toEqual({ depth: 418, stub: 196 })
  })

  it('leaves the residual stub of a backdrill, or less where less hangs', () => {
    expect(um(viaTravel(layers, drilled('bottom', 200), 1, 3)).stub).toBe(200)
    expect(um(viaTravel(layers, drilled('bottom', 500), 1, 3)).stub).toBe(418)
    expect(viaTravel(layers, drilled('bottom', 200), 1, 4).stub).toBe(0)
  })

  it('is not shortened by a backdrill from the side of the land', () => {
    expect(um(viaTravel(layers, drilled('top', 200), 1, 3)).stub).toBe(418)
    expect(um(viaTravel(layers, drilled('top', 100), 4, 3)).stub).toBe(100)
  })

  it('refuses layers that the via does not reach, and a stackup without them', () => {
    expect(() => viaTravel(layers, via('blind', { lastLayer: 2 }), 1, 3)).toThrow(
      /spans copper layers 1 to 2, not layer 3/,
    )
    expect(() => viaTravel(layers, through, 0, 3)).toThrow(RangeError)
    expect(() => viaTravel(layers, via('long', { lastLayer: 6 }), 1, 6)).toThrow(/no copper layer 6/)
    expect(() => viaTravel(layers, through, 1, NaN)).toThrow(RangeError)
  })
})
