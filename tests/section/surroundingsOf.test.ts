import { describe, expect, it } from 'vitest'
import type { Package } from '../../src/board/packages.ts'
import type { ViaType } from '../../src/board/vias.ts'
import { deriveSection } from '../../src/section/deriveSection.ts'
import { surroundingsOf } from '../../src/section/surroundingsOf.ts'
import { exampleBoard } from '../board/exampleBoard.ts'

const board = await exampleBoard()
const [pack] = board.packages
if (pack === undefined) throw new Error('the example has a package')

function around(
  layer: number,
  change: Partial<Package> = {},
  via: Partial<ViaType> = {},
): ReturnType<typeof surroundingsOf> {
  const request = { layer, width: 80e-6, gap: null, coplanarGap: null, broadsideLayer: null }
  const vias = board.vias.map((each) => ({ ...each, ...via }))
  return surroundingsOf(
    board.stackup,
    { ...pack, ...change } as Package,
    vias,
    deriveSection(board.stackup, request),
  )
}

describe('what stands beside a neck', () => {
  it('are the vias of the package at half the pitch, with their drill and their antipads', () => {
    const found = around(3)
    const [via] = board.vias
    expect(found).toMatchObject({
      viaPitch: pack.viaPitch.x,
      halfChannel: pack.viaPitch.x / 2,
      barrel: via?.drilledDiameter,
      pad: null,
      planeBelow: { antipad: via?.antipadDiameter },
      planeAbove: { antipad: via?.antipadDiameter },
    })
  })

  it('takes the narrower channel of a pitch that is not square, with vias at the wider pitch along it', () => {
    const found = around(3, { viaPitch: { x: 1e-3, y: 0.6e-3 } })
    expect(found).toMatchObject({ viaPitch: 1e-3, halfChannel: 0.3e-3 })
  })

  it('keeps pads where unconnected ones are kept', () => {
    expect(around(3, {}, { unconnectedInnerPads: 'kept' })?.pad).toBe(board.vias[0]?.padDiameters[2])
  })

  it('leaves a plane whole that the via does not pass, and has no surroundings beyond its span', () => {
    const blind = { kind: 'blind', lastLayer: 3 } as const
    const section = around(3, {}, blind)
    expect([section?.planeBelow.antipad, section?.planeAbove?.antipad]).toContain(null)
    expect(around(6, {}, blind)).toBeNull()
  })

  it('are nothing on the layer of the lands beneath dog-bones, and lands with the via in pad', () => {
    expect(around(1)).toBeNull()
    expect(around(1, { viaPlacement: 'in pad' })).toMatchObject({
      pad: pack.landDiameter,
      planeAbove: null,
    })
  })

  it('names how far the next plane is behind each', () => {
    const { planeBelow, planeAbove } = around(3) ?? {}
    // L2 and L4 are the planes of L3; behind L2 there is only the outer layer, behind L4 the middle of the board.
    expect([planeBelow?.behind, planeAbove?.behind].filter((each) => each === null)).toHaveLength(1)
  })
})
