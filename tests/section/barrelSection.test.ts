import { describe, expect, it } from 'vitest'
import type { ViaType } from '../../src/board/vias.ts'
import { barrelSection, type BarrelRequest, type BarrelSection } from '../../src/section/barrelSection.ts'
import { via } from '../escape/fixtures.ts'
import { copper, dielectric, mask, plane, stackup } from '../helpers/stackup.ts'

/** Depths in um, from the top of the mask: copper of 18 at 20–38, 98–116, 216–234, 634–652. */
const layers = stackup(
  mask('top', 25, 20, 3.5),
  copper('L1'),
  dielectric('one', 60, 3.6),
  plane('L2'),
  dielectric('two', 100, 4),
  copper('L3'),
  dielectric('three', 400, 3.8),
  copper('L4'),
  mask('bottom', 25, 20, 3.3),
)
/** The same without masks, with a second plane below: 0–18, 78–96, 196–214, 314–332, 432–450. */
const planes = stackup(
  copper('L1'),
  dielectric('one', 60, 3.6),
  plane('L2'),
  dielectric('two', 100, 3.6),
  copper('L3'),
  dielectric('three', 100, 3.6),
  plane('L4'),
  dielectric('four', 100, 3.6),
  copper('L5'),
)

const micro = (value: number): number => value * 1e-6
const pads = (...sizes: number[]): number[] => sizes.map(micro)
const through = via('through', { lastLayer: 4, padDiameters: pads(450, 451, 452, 453) })
const request = (holes: readonly ViaType[], change: Partial<BarrelRequest> = {}): BarrelRequest => ({
  holes,
  landLayer: 1,
  exitLayer: 3,
  land: null,
  ...change,
})

const um = (metres: number | null): number | null => (metres === null ? null : Math.round(metres * 1e9) / 1e3)
const sheet = (section: BarrelSection, key: 'pad' | 'opening'): (number | null)[] =>
  section.layers.map((layer) => um(layer[key]))
const ends = ({ holes }: BarrelSection): (number | null)[][] =>
  holes.map(({ top, bottom }) => [um(top), um(bottom)])
const copperOnly = (list: readonly (number | null)[], masks: boolean): (number | null)[] =>
  list.slice(masks ? 1 : 0, masks ? -1 : undefined).filter((_, index) => index % 2 === 0)

describe('the section of a barrel', () => {
  const section = barrelSection(layers, request([through]))

  it('goes through all layers, masks included, by their thickness over copper', () => {
    expect(section.layers.map(({ thickness }) => um(thickness))).toEqual([
      20, 18, 60, 18, 100, 18, 400, 18, 20,
    ])
  })

  it('has a hole from the outer face of its first copper to the outer face of its last', () => {
    expect(ends(section)).toEqual([[20, 652]])
    expect(um(section.holes[0]?.diameter ?? NaN)).toBe(200)
  })

  it('has the pads that are kept, and openings in planes alone', () => {
    expect(copperOnly(sheet(section, 'pad'), true)).toEqual([450, 451, 452, 453])
    expect(copperOnly(sheet(section, 'opening'), true)).toEqual([null, 600, null, null])
    expect(section.layers.filter((_, index) => index % 2 === 0).every(({ pad }) => pad === null)).toBe(true)
  })

  it('lets the signal run from beyond the land to the near face of the copper that it leaves on', () => {
    expect(section.signal.from).toBe(-Infinity)
    expect(um(section.signal.to)).toBe(216)
  })

  it('is filled beside copper by what lies on either side, outside by the mask', () => {
    const filling = section.layers.map((layer) => layer.filling.map(({ relative }) => relative))
    expect(filling).toEqual([[3.5], [3.5], [3.6], [3.6, 4], [4], [4, 3.8], [3.8], [3.3], [3.3]])
  })

  it('is filled by air outside where there is no mask', () => {
    const { layers: bare } = barrelSection(planes, request([via('bare', { lastLayer: 5 })]))
    expect([bare[0]?.filling, bare.at(-1)?.filling]).toEqual([[], []])
    expect(bare[2]?.filling).toHaveLength(2)
  })

  it('loses pads that nothing connects to, where they are removed, not those at its ends and at the exit', () => {
    const removed = via('removed', { lastLayer: 5, unconnectedInnerPads: 'removed' })
    const at = (exitLayer: number): (number | null)[] =>
      copperOnly(sheet(barrelSection(planes, request([removed], { exitLayer })), 'pad'), false)
    expect(at(3)).toEqual([450, null, 450, null, 450])
    expect(at(5)).toEqual([450, null, null, null, 450])
    expect(at(1)).toEqual([450, null, null, null, 450])
  })

  it('has a land as wide as the pad in it, or the land where that is wider', () => {
    const at = (land: number | null): number | null =>
      sheet(barrelSection(layers, request([through], { land })), 'pad')[1] ?? null
    expect(at(null)).toBe(450)
    expect(at(micro(400))).toBe(450)
    expect(at(micro(520))).toBe(520)
    // The land lies on its own layer alone.
    const wide = barrelSection(layers, request([through], { land: micro(520) }))
    expect(copperOnly(sheet(wide, 'pad'), true).slice(1)).toEqual([451, 452, 453])
  })
})

describe('a blind via', () => {
  const blind = via('blind', { kind: 'blind', lastLayer: 3, padDiameters: pads(400, 401, 402) })
  const section = barrelSection(planes, request([blind]))

  it('ends where its last pad ends, with planes below unbroken', () => {
    expect(ends(section)).toEqual([[0, 214]])
    expect(copperOnly(sheet(section, 'pad'), false)).toEqual([400, 401, 402, null, null])
    expect(copperOnly(sheet(section, 'opening'), false)).toEqual([null, 600, null, 0, null])
  })

  it('named from below upwards is the same hole', () => {
    const turned = { ...blind, firstLayer: 3, lastLayer: 1 }
    expect(barrelSection(planes, request([turned]))).toEqual(section)
  })
})

describe('holes one below the other', () => {
  const upper = via('upper', {
    kind: 'microvia',
    lastLayer: 2,
    drilledDiameter: micro(100),
    padDiameters: pads(250, 260),
    antipadDiameter: micro(400),
    arrangement: 'stacked',
    unconnectedInnerPads: 'removed',
  })
  const lower = via('lower', {
    kind: 'buried',
    firstLayer: 2,
    lastLayer: 4,
    padDiameters: pads(460, 461, 462),
    antipadDiameter: micro(620),
    unconnectedInnerPads: 'removed',
  })
  const section = barrelSection(planes, request([upper, lower], { exitLayer: 4 }))

  it('have each its own depth and diameter', () => {
    expect(ends(section)).toEqual([
      [0, 96],
      [78, 332],
    ])
    expect(section.holes.map(({ diameter }) => um(diameter))).toEqual([100, 200])
  })

  it('share the wider pad and the wider opening where they meet', () => {
    expect(copperOnly(sheet(section, 'pad'), false)).toEqual([250, 460, null, 462, null])
    expect(copperOnly(sheet(section, 'opening'), false)).toEqual([null, 620, null, 620, null])
  })

  it('keep the landings of stacked microvias, which stand on them', () => {
    const tall = { ...upper, lastLayer: 3, padDiameters: pads(250, 260, 270) }
    const stack = barrelSection(planes, request([tall]))
    expect(copperOnly(sheet(stack, 'pad'), false)).toEqual([250, 260, 270, null, null])
  })
})

describe('a hole drilled back', () => {
  const back = (from: 'top' | 'bottom', residualStub: number, change: Partial<ViaType> = {}): ViaType =>
    via('back', { lastLayer: 5, backdrill: { diameter: micro(400), from, residualStub }, ...change })

  it('from below ends its residual stub below the middle of the exit layer, its pads beyond gone', () => {
    const section = barrelSection(planes, request([back('bottom', micro(60))]))
    expect(ends(section)).toEqual([[0, 265]])
    expect(copperOnly(sheet(section, 'pad'), false)).toEqual([450, 450, 450, null, null])
    // The drill went through the plane, which stays open.
    expect(copperOnly(sheet(section, 'opening'), false)).toEqual([null, 600, null, 600, null])
  })

  it('from below ends no higher than the far face of the exit layer, and no lower than it was', () => {
    expect(ends(barrelSection(planes, request([back('bottom', 0)])))).toEqual([[0, 214]])
    expect(ends(barrelSection(planes, request([back('bottom', 1e-3)])))).toEqual([[0, 450]])
  })

  it('from above, under a package on the bottom, begins its residual stub above the exit layer', () => {
    const section = barrelSection(planes, request([back('top', micro(60))], { landLayer: 5 }))
    expect(ends(section)).toEqual([[145, 450]])
    expect(copperOnly(sheet(section, 'pad'), false)).toEqual([null, null, 450, 450, 450])
    expect([um(section.signal.from), section.signal.to]).toEqual([214, Infinity])
    expect(ends(barrelSection(planes, request([back('top', 0)], { landLayer: 5 })))).toEqual([[196, 450]])
  })

  it('from the side of the land stays whole, for the signal runs there', () => {
    expect(ends(barrelSection(planes, request([back('top', 0)])))).toEqual([[0, 450]])
    expect(ends(barrelSection(planes, request([back('bottom', 0)], { landLayer: 5 })))).toEqual([[0, 450]])
  })
})

describe('a barrel that only hangs', () => {
  it('has no way of the signal through it', () => {
    expect(barrelSection(layers, request([through], { exitLayer: 1 })).signal).toEqual({ from: 0, to: 0 })
  })
})

describe('what cannot be a barrel', () => {
  it('is refused: no hole, and layers that the stackup does not have', () => {
    expect(() => barrelSection(layers, request([]))).toThrow(/needs a hole/)
    expect(() => barrelSection(layers, request([through], { exitLayer: 5 }))).toThrow(/no copper layer 5/)
    expect(() => barrelSection(layers, request([via('deep', { lastLayer: 12 })]))).toThrow(RangeError)
  })
})
