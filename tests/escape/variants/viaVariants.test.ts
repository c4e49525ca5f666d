import { describe, expect, it } from 'vitest'
import { viaOf } from '../../../src/board/lookup.ts'
import type { EscapePlan } from '../../../src/escape/escape.ts'
import { planEscape } from '../../../src/escape/planEscape.ts'
import { DEEPEST_MICROVIA } from '../../../src/escape/variants/viaSize.ts'
import { pressingsOf } from '../../../src/escape/variants/inventedVias.ts'
import type { Variant } from '../../../src/escape/variants/variant.ts'
import { blindVariant, microviaVariant, throughVariant } from '../../../src/escape/variants/viaVariants.ts'
// An independent route to what the fabricator makes: the checks that findings are made of.
import { drillIsDeepEnough, holesOf, ringsHold } from '../../../src/findings/viaChecks.ts'
import { fabrication, packageOf, square, um, via } from '../fixtures.ts'
import { described, laminate, laminated, MICROVIAS, packOf } from './fixtures.ts'

const pack = packageOf(square(8))
const planOf = (variant: Variant): EscapePlan =>
  planEscape(variant.board, packOf(variant), variant.technology)
const layersUsed = (plan: EscapePlan): number => plan.layers.filter(({ escaped }) => escaped > 0).length
const inventedBy = (variant: Variant): ReturnType<typeof viaOf>[] =>
  variant.board.vias.filter(({ name }) => variant.assumed.some(({ path }) => path.includes(`"${name}"`)))

describe('through vias', () => {
  it('are the description where the package has them', () => {
    const given = described(laminated(pack))
    const variant = throughVariant(given)
    expect([variant.state, variant.board]).toEqual(['as described', given.board])
  })

  it('are taken from the description where it has one beside the lands', () => {
    const board = laminated(packageOf(square(8), { via: 'laser 1', viaPlacement: 'in pad' }), {
      vias: [...MICROVIAS, via('drilled', { lastLayer: 10 })],
    })
    const variant = throughVariant(described(board))
    expect([variant.state, variant.technology, variant.assumed]).toEqual(['differs', 'through', []])
    expect([packOf(variant).via, packOf(variant).viaPlacement]).toEqual(['drilled', 'dog-bone'])
  })

  it('are invented where it has none, as the fabricator can drill them', () => {
    const board = laminated(packageOf(square(8), { via: 'laser 1', viaPlacement: 'in pad' }), {
      vias: MICROVIAS,
    })
    const variant = throughVariant(described(board))
    const [made, ...more] = inventedBy(variant)
    if (made === undefined) throw new Error('nothing was invented')
    expect(more).toEqual([])
    expect([made.kind, made.firstLayer, made.lastLayer]).toEqual(['through', 1, 10])
    expect(drillIsDeepEnough(board, made, made.drilledDiameter)).toBe(true)
    expect(ringsHold(board, made)).toBe(true)
    expect(variant.change).toContain('invented')
  })

  it('are refused with figures where neighbouring holes would stand too near', () => {
    const fine = packageOf(square(4), { pitch: { x: um(350), y: um(350) }, via: 'laser 1' })
    const variant = throughVariant(described(laminated(fine, { vias: MICROVIAS })))
    expect(variant.state).toBe('cannot be built')
    expect(variant.change).toContain('0.150 mm from wall to wall')
    expect(variant.change).toContain('0.200 mm')
  })
})

describe('blind vias', () => {
  it('are the described ones where there are any', () => {
    const board = laminated(pack, {
      vias: [via('through', { lastLayer: 10 }), via('to L3', { kind: 'blind', lastLayer: 3 })],
    })
    const variant = blindVariant(described(board))
    expect([variant.state, variant.technology, variant.board]).toEqual(['differs', 'blind', board])
    expect(variant.change).toContain('to L3 to L3')
  })

  it('are invented as the fabricator can make them, and so that they can be laminated together', () => {
    const board = laminated(pack)
    const variant = blindVariant(described(board))
    const made = inventedBy(variant)
    expect(made.map(({ kind, firstLayer, lastLayer }) => [kind, firstLayer, lastLayer])).toEqual([
      ['microvia', 1, 2],
      ['microvia', 2, 3],
      ['blind', 1, 5],
    ])
    for (const each of made) {
      expect([each.name, drillIsDeepEnough(board, each, each.drilledDiameter)]).toEqual([each.name, true])
      expect([each.name, ringsHold(board, each)]).toEqual([each.name, true])
    }
    expect(pressingsOf(board, variant.board.vias)).not.toBeNull()
    // L8 is the upper face of a core: no laminate ends there.
    expect(variant.change).toMatch(/L8: no order of lamination/)
  })

  it('stack no more microvias than the fabricator does', () => {
    const board = laminated(pack, { fabrication: fabrication({ maxStackedMicrovias: 1 }) })
    const kinds = inventedBy(blindVariant(described(board))).map(({ kind }) => kind)
    expect(kinds).toEqual(['microvia', 'blind', 'blind'])
  })

  it('take no laser where the dielectric is too deep for one', () => {
    const board = laminated(pack, { stackup: laminate(260) })
    const made = inventedBy(blindVariant(described(board)))
    expect(made.map(({ kind }) => kind)).toEqual(['blind', 'blind'])
    for (const { depth } of holesOf(laminated(pack), MICROVIAS[0] ?? via('none'))) {
      expect(depth).toBeLessThan(DEEPEST_MICROVIA)
    }
  })

  it('are refused where no signal layer lies inside', () => {
    const { copper, ...rest } = laminate()
    const bare = copper.map((layer) =>
      layer.position === 'inner' ? { ...layer, role: 'plane' as const, planeNet: 'GND' } : layer,
    )
    const variant = blindVariant(described(laminated(pack, { stackup: { ...rest, copper: bare } })))
    expect(variant.state).toBe('cannot be built')
    expect(variant.change).toContain('no signal layer lies inside')
  })

  // Every hole of the other technology stands on fewer layers, in the same place.
  it.each([4, 6, 8, 10, 12])('of the same pads never need more layers than through vias: %i rows', (rows) => {
    const full = packageOf(square(rows))
    const vias = [3, 5, 10].map((last) =>
      via(`to ${last}`, { kind: last === 10 ? 'through' : 'blind', lastLayer: last }),
    )
    const board = laminated({ ...full, via: 'to 10' }, { vias })
    const through = planOf(throughVariant(described(board)))
    const blind = planOf(blindVariant(described(board)))
    expect(blind.unescaped.length).toBeLessThanOrEqual(through.unescaped.length)
    expect(blind.atLeastLayers ?? Infinity).toBeLessThanOrEqual(through.atLeastLayers ?? Infinity)
    const need = (plan: EscapePlan): number => (plan.unescaped.length === 0 ? layersUsed(plan) : Infinity)
    expect(need(blind)).toBeLessThanOrEqual(need(through))
  })
})

describe('microvias in the lands', () => {
  it('are the description where they stand there', () => {
    const board = laminated(packageOf(square(4), { via: 'laser 1', viaPlacement: 'in pad' }), {
      vias: MICROVIAS,
    })
    expect(microviaVariant(described(board)).state).toBe('as described')
  })

  it('are moved from beside the lands into them, filled and capped, with no hole through the board', () => {
    const board = laminated(packageOf(square(4), { via: 'laser 1' }), {
      vias: [...MICROVIAS, via('drilled', { lastLayer: 10 })],
    })
    const variant = microviaVariant(described(board))
    const moved = viaOf(variant.board, 'laser 1')
    expect(packOf(variant).viaPlacement).toBe('in pad')
    expect([moved.inPad, moved.filled, moved.capped]).toEqual([true, true, true])
    expect(variant.board.vias.some(({ kind }) => kind === 'through')).toBe(false)
  })

  it('are invented, and plans with them are clean', () => {
    const variant = microviaVariant(described(laminated(pack)))
    expect(variant.state).toBe('differs')
    // No laminate begins at L3, the lower face of a core; one that begins at L2 ends at L5.
    expect(
      inventedBy(variant).map(({ kind, firstLayer, lastLayer }) => [kind, firstLayer, lastLayer]),
    ).toEqual([
      ['microvia', 1, 2],
      ['microvia', 2, 3],
      ['buried', 2, 5],
    ])
    expect(pressingsOf(variant.board, variant.board.vias)).not.toBeNull()
    const plan = planOf(variant)
    expect(plan.check.faults).toEqual([])
    expect(plan.routes.length).toBeGreaterThan(0)
  })

  it('are refused where their pads would touch the next lands', () => {
    // Drilled 150 um (118 um deep at 0.8), pad 150 + 2 (25 + 75) = 350 um; 350 / 2 + 160 / 2 = 255 um.
    const fine = packageOf(square(4), {
      pitch: { x: um(255), y: um(255) },
      landDiameter: um(160),
      maskOpening: um(180),
    })
    const made = fabrication({ holeWallToHoleWall: um(100) })
    const variant = microviaVariant(described(laminated(fine, { fabrication: made })))
    expect(variant.state).toBe('cannot be built')
    expect(variant.change).toContain('pads of 0.350 mm')
    expect(variant.change).toContain('next lands of 0.160 mm, 0.255 mm away')
  })

  it('are refused with the depth that no laser reaches', () => {
    const variant = microviaVariant(described(laminated(pack, { stackup: laminate(260) })))
    expect(variant.state).toBe('cannot be built')
    expect(variant.change).toContain('a microvia of 0.278 mm is deeper than 0.250 mm')
  })
})
