import { describe, expect, it } from 'vitest'
import { amongVias } from '../../src/impedance/amongVias.ts'
import { breakoutLine } from '../../src/impedance/field/breakoutLine.ts'
import { estimateLine, uncoupledPair } from '../../src/impedance/estimateLine.ts'
import { permittivityIn } from '../../src/impedance/permittivityIn.ts'
import { pooledPassage } from '../../src/impedance/pooledPassage.ts'
import type { BesideNeck } from '../../src/routes/route.ts'
import { deriveSection } from '../../src/section/deriveSection.ts'
import { surroundingsOf } from '../../src/section/surroundingsOf.ts'
import { SPEED_OF_LIGHT } from '../../src/units/constants.ts'
import { exampleBoard } from '../board/exampleBoard.ts'
import { TEST_FREQUENCY } from '../helpers/lineSection.ts'

const board = await exampleBoard()
const [via] = board.vias
if (via === undefined) throw new Error('the example has a via')
const PITCH = 0.8e-3
const request = { layer: 3, width: 80e-6, gap: null, coplanarGap: null, broadsideLayer: null }
const section = deriveSection(board.stackup, request)
const line = estimateLine(section, TEST_FREQUENCY)
const hole: BesideNeck = {
  count: 1,
  covers: PITCH,
  distance: PITCH / 2,
  pitch: PITCH,
  pitchAcross: PITCH,
  via: via.name,
  pad: null,
  barrel: via.drilledDiameter,
  supply: null,
}

/** So many places beside the middle of a neck. */
function holes(count: number, change: Partial<BesideNeck> = {}): BesideNeck {
  return { ...hole, count, covers: count * PITCH, ...change }
}

/** Ten pitches of channel with so many places taken. */
function ratio(count: number, change: Partial<BesideNeck> = {}): number {
  const passage = { length: 10 * PITCH, beside: [holes(count, change)] }
  return amongVias(board, line, passage)?.ratio ?? NaN
}

describe('a line among vias', () => {
  it('with both sides taken all along is the full channel of the field solution', () => {
    const surroundings = surroundingsOf(board.stackup, board.vias, section, hole)
    const refinement = { levels: 0, order: 2 }
    const { modes } = breakoutLine(section, surroundings, permittivityIn(TEST_FREQUENCY), refinement)
    expect(ratio(20)).toBeCloseTo(modes.kind === 'single' ? modes.line.ratio : NaN, 4)
  })

  it('changes in proportion to the places taken, on either side', () => {
    const [one, full] = [ratio(2) - 1, ratio(20) - 1]
    expect(Math.abs(full)).toBeGreaterThan(0.005)
    expect(one / full).toBeCloseTo(0.1, 2)
  })

  it('is not loaded where nothing stands beside it', () => {
    expect(amongVias(board, line, { length: 1e-3, beside: [] })).toBeNull()
    expect(ratio(20, { distance: 1.05 * PITCH })).toBe(1)
  })

  it('changes without a jump with the distance', () => {
    const distances = Array.from({ length: 60 }, (_, index) => (0.42 + 0.006 * index) * PITCH)
    const changes = distances.map((distance) => ratio(20, { distance }) - 1)
    const largest = Math.max(...changes.map(Math.abs))
    changes.slice(1).forEach((change, index) => {
      expect(Math.abs(change - Number(changes[index]))).toBeLessThan(0.2 * largest)
    })
  })

  it('between two distances is near the field solution there', () => {
    for (const share of [0.47, 0.55, 0.65, 0.8]) {
      const place = holes(20, { distance: share * PITCH })
      const surroundings = surroundingsOf(board.stackup, board.vias, section, place)
      const { modes } = breakoutLine(section, surroundings, permittivityIn(TEST_FREQUENCY), {
        levels: 0,
        order: 2,
      })
      const solved = (modes.kind === 'single' ? modes.line.ratio : NaN) - 1
      expect(Math.abs(ratio(20, { distance: place.distance }) - 1 - solved)).toBeLessThan(
        Math.max(0.1 * Math.abs(solved), 1e-3),
      )
    }
  })

  it('feels no opening where the via joins the plane', () => {
    const net = section.planeBelow.net
    expect(net).not.toBeNull()
    expect(Math.abs(ratio(20, { supply: net }) - 1)).toBeLessThan(Math.abs(ratio(20) - 1))
  })

  it('has the delay of its mean inductance and capacitance, and a wider band the more it is loaded', () => {
    const loaded = amongVias(board, line, { length: 10 * PITCH, beside: [holes(20)] })
    expect(Number(loaded?.delay) * SPEED_OF_LIGHT).toBeCloseTo(
      Math.sqrt(Number(loaded?.effectivePermittivity)),
      9,
    )
    const few = amongVias(board, line, { length: 10 * PITCH, beside: [hole] })
    expect(Number(loaded?.band)).toBeGreaterThan(Number(few?.band))
    expect(Number(few?.band)).toBeGreaterThan(line.chosen.claimedError)
  })

  it('is less sure where an opening takes the plane from under it', () => {
    const beside = (distance: number): number => {
      const loaded = amongVias(board, line, {
        length: 10 * PITCH,
        beside: [holes(20, { distance })],
      })
      return (Number(loaded?.band) - line.chosen.claimedError - 0.005) / Math.abs(Number(loaded?.ratio) - 1)
    }
    const radius = via.antipadDiameter / 2
    expect(beside(radius - 10e-6)).toBeGreaterThan(0.35)
    expect(beside(radius + 60e-6)).toBeGreaterThan(0.07)
    expect(beside(radius + 60e-6)).toBeLessThan(0.2)
  })

  // Full channels over solid planes, by finite volumes of a quarter of one via cell in three dimensions, written apart
  // from the project (numpy, scipy; cells of 5 to 6 µm, those of 7 and 8 µm cells are within 0.003): capacitance from the
  // potential, inductance from the scalar magnetic potential with copper as walls. Round pads, barrels and openings;
  // the line's trapezoid as a rectangle of its mean width, open space behind L2. Micrometres.
  it.each([
    { pitch: 650, pad: 400, antipad: 600, spatial: 1.0106 },
    { pitch: 650, pad: 400, antipad: 560, spatial: 0.9969 },
    { pitch: 500, pad: 350, antipad: 450, spatial: 0.925 },
    { pitch: 650, pad: null, antipad: 600, spatial: 1.0366 },
  ])(
    'errs within its band where a channel is solved in space: $pitch, pad $pad, $antipad',
    ({ pitch, pad, antipad, spatial }) => {
      const vias = board.vias.map((each) => ({ ...each, antipadDiameter: antipad * 1e-6 }))
      const at = pitch * 1e-6
      const place = {
        ...hole,
        pad: pad === null ? null : pad * 1e-6,
        distance: at / 2,
        pitch: at,
        pitchAcross: at,
      }
      const beside = [{ ...place, count: 20, covers: 20 * at }]
      const loaded = amongVias({ ...board, vias }, line, { length: 10 * at, beside })
      const { ratio: said = NaN, band = NaN } = loaded ?? {}
      expect(Math.abs(spatial / said - 1)).toBeLessThan(band)
      expect(band).toBeLessThan(0.05)
    },
  )

  it('takes two traces apart as twice the single one', () => {
    const passage = { length: 10 * PITCH, beside: [holes(20)] }
    const apart = amongVias(board, uncoupledPair(line), passage)
    expect(apart?.impedance).toBeCloseTo(2 * Number(amongVias(board, line, passage)?.impedance), 9)
  })

  it('has a band that says so where a pad leaves it no room', () => {
    const passage = { length: 10 * PITCH, beside: [holes(20, { pad: 0.75e-3 })] }
    const loaded = amongVias(board, line, passage)
    expect(loaded?.ratio).toBe(1)
    expect(loaded?.band).toBeGreaterThan(0.25)
  })

  it('feels half of a place abreast of its end', () => {
    const [half, whole] = [ratio(1, { covers: PITCH / 2 }) - 1, ratio(1) - 1]
    expect(half / whole).toBeCloseTo(0.5, 2)
  })

  it('is loaded by rows as far away as the grid across it says, however near the places along it are', () => {
    const along = { ...hole, pitch: 0.5e-3, pitchAcross: 0.8e-3, distance: 0.4e-3 }
    const vias = board.vias.map((each) => ({ ...each, antipadDiameter: 0.45e-3 }))
    const narrow = { ...board, vias }
    const loaded = amongVias(narrow, line, { length: 5e-3, beside: [{ ...along, count: 20, covers: 10e-3 }] })
    const surroundings = surroundingsOf(board.stackup, vias, section, along)
    const { modes } = breakoutLine(section, surroundings, permittivityIn(TEST_FREQUENCY), {
      levels: 0,
      order: 2,
    })
    expect(loaded?.ratio).toBeCloseTo(modes.kind === 'single' ? modes.line.ratio : NaN, 5)
  })
})

describe('several necks as one', () => {
  it('have the mean change, by length', () => {
    const passages = [
      { length: 2e-3, beside: [holes(6)] },
      {
        length: 3e-3,
        beside: [holes(1), holes(2, { pad: 0.3e-3 })],
      },
    ]
    const pooled = pooledPassage(passages)
    expect(pooled.length).toBeCloseTo(5e-3, 15)
    expect(pooled.beside.map(({ count, pad }) => [count, pad])).toEqual([
      [7, null],
      [2, 0.3e-3],
    ])
    expect(pooled.beside[0]?.covers).toBeCloseTo(7 * PITCH, 12)
    expect(pooledPassage([])).toEqual({ length: 0, beside: [] })
  })
})
