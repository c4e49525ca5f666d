import { describe, expect, it } from 'vitest'
import type { ViaType } from '../../src/board/vias.ts'
import type { BesideNeck } from '../../src/routes/route.ts'
import type { Surroundings } from '../../src/section/surroundings.ts'
import { deriveSection } from '../../src/section/deriveSection.ts'
import { surroundingsOf } from '../../src/section/surroundingsOf.ts'
import { exampleBoard } from '../board/exampleBoard.ts'

const board = await exampleBoard()
const [via] = board.vias
if (via === undefined) throw new Error('the example has a via')
const hole: BesideNeck = {
  count: 3,
  covers: 2.4e-3,
  distance: 0.3e-3,
  pitch: 0.8e-3,
  pitchAcross: 0.8e-3,
  via: via.name,
  pad: 0.4e-3,
  barrel: 0.2e-3,
  supply: null,
}

function around(
  layer: number,
  change: Partial<BesideNeck> = {},
  vias: readonly ViaType[] = board.vias,
): Surroundings {
  const request = { layer, width: 80e-6, gap: null, coplanarGap: null, broadsideLayer: null }
  return surroundingsOf(board.stackup, vias, deriveSection(board.stackup, request), { ...hole, ...change })
}

describe('what stands beside a neck', () => {
  it('is taken on both sides at its distance and pitch, with its drill, its pad and its antipads', () => {
    expect(around(3)).toMatchObject({
      viaPitch: 0.8e-3,
      halfChannel: 0.3e-3,
      barrel: 0.2e-3,
      pad: 0.4e-3,
      planeBelow: { antipad: via.antipadDiameter },
      planeAbove: { antipad: via.antipadDiameter },
    })
  })

  it('leaves a plane whole that the hole does not pass', () => {
    const blind: ViaType = { ...via, name: 'blind', kind: 'blind', lastLayer: 3 }
    const { planeBelow, planeAbove } = around(3, { via: 'blind' }, [blind])
    expect([planeBelow.antipad, planeAbove?.antipad].filter((each) => each === null)).toHaveLength(1)
  })

  it('knows holes that stand below one another by their names', () => {
    const upper: ViaType = { ...via, name: 'upper', kind: 'blind', lastLayer: 2 }
    const lower: ViaType = {
      ...via,
      name: 'lower',
      kind: 'buried',
      firstLayer: 2,
      lastLayer: 5,
      antipadDiameter: 0.5e-3,
    }
    const { planeBelow, planeAbove } = around(3, { via: 'upper + lower' }, [upper, lower])
    const antipads = new Set([planeBelow.antipad, planeAbove?.antipad])
    expect(antipads).toEqual(new Set([0.5e-3, via.antipadDiameter]))
  })

  it('leaves planes whole that a supply via joins', () => {
    const { planeBelow } = deriveSection(board.stackup, {
      layer: 3,
      width: 80e-6,
      gap: null,
      coplanarGap: null,
      broadsideLayer: null,
    })
    expect(planeBelow.net).not.toBeNull()
    expect(around(3, { supply: planeBelow.net }).planeBelow.antipad).toBeNull()
    expect(around(3, { supply: 'another net' }).planeBelow.antipad).toBe(via.antipadDiameter)
  })

  it('has no openings beside lands without a via', () => {
    const { barrel, planeBelow, planeAbove } = around(1, { via: null, barrel: null })
    expect([barrel, planeBelow.antipad, planeAbove]).toEqual([null, null, null])
  })

  it('names how far the next plane is behind each', () => {
    const { planeBelow, planeAbove } = around(3)
    // L2 and L4 are the planes of L3; behind L2 there is only the outer layer, behind L4 the middle of the board.
    expect([planeBelow.behind, planeAbove?.behind].filter((each) => each === null)).toHaveLength(1)
  })
})
