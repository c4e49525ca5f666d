import { beforeAll, describe, expect, it } from 'vitest'
import type { Board } from '../../src/board/board.ts'
import type { Stackup } from '../../src/board/stackup.ts'
import { chosenValue } from '../../src/impedance/estimateLine.ts'
import type { LineRequest } from '../../src/section/crossSection.ts'
import { deriveSection } from '../../src/section/deriveSection.ts'
import { lineSpread } from '../../src/tolerance/lineSpread.ts'
import { processInputs } from '../../src/tolerance/processInputs.ts'
import type { Contribution, ProcessSpread } from '../../src/tolerance/processSpread.ts'
import { exampleBoard } from '../board/exampleBoard.ts'
import { copper, dielectric, mask, plane, stackup } from '../helpers/stackup.ts'

let board: Board

beforeAll(async () => {
  board = await exampleBoard()
})

const line: LineRequest = { layer: 1, width: 90e-6, gap: null, coplanarGap: null, broadsideLayer: null }

/** The board with tolerances of its own: width, then every thickness and permittivity. */
function boardWith(
  layers: Stackup,
  tolerance: { width?: number; thickness?: number; permittivity?: number },
): Board {
  const { width = 0, thickness = 0, permittivity = 0 } = tolerance
  const toleranced = layers.layers.map((layer) => {
    if (layer.kind === 'copper') return { ...layer, thicknessTolerance: thickness }
    const material = { ...layer.permittivity, tolerance: permittivity }
    return layer.kind === 'mask'
      ? { ...layer, permittivity: material }
      : { ...layer, permittivity: material, thicknessTolerance: thickness }
  })
  return {
    ...board,
    stackup: { ...layers, layers: toleranced, copper: toleranced.filter((layer) => layer.kind === 'copper') },
    fabrication: { ...board.fabrication, widthTolerance: width, widthToleranceFloor: 0 },
  }
}

const stripline = stackup(
  plane('L1'),
  dielectric('below', 120, 3.7),
  copper('L2', { thickness: 15e-6, sidewallSlope: 0.3 }),
  dielectric('above', 150, 3.7),
  plane('L3'),
)
const inStripline = { ...line, layer: 2 }

function spreadOf(of: Board, request: LineRequest): ProcessSpread {
  const spread = lineSpread(of, request)
  if (spread === null) throw new Error('the line comes out everywhere')
  return spread
}

const of = ({ contributions }: ProcessSpread, quantity: Contribution['quantity']): Contribution[] =>
  contributions.filter((each) => each.quantity === quantity)

describe('the spread of a line by its process', () => {
  it('goes by one over the root of the permittivity where that is the same all round: exact', () => {
    const { worst } = spreadOf(boardWith(stripline, { permittivity: 0.05 }), inStripline)
    expect(worst.lowest).toBeCloseTo(1 / Math.sqrt(1.05) - 1, 9)
    expect(worst.highest).toBeCloseTo(1 / Math.sqrt(0.95) - 1, 9)
  })

  it('is nothing when all sizes grow alike: exact, as impedance depends on their ratios alone', () => {
    const tolerance = 1e-3
    const spread = spreadOf(boardWith(stripline, { width: tolerance, thickness: tolerance }), inStripline)
    const slopes = spread.contributions.filter(({ quantity }) => quantity !== 'permittivity')
    const sum = slopes.reduce((total, { atLower, atUpper }) => total + (atUpper - atLower) / 2, 0)
    // By Euler's theorem on homogeneous functions of degree 0; what is left is of the third order.
    expect(slopes).toHaveLength(4)
    expect(Math.abs(sum)).toBeLessThan(2e-3 * Number(of(spread, 'trace width')[0]?.atLower))
  })

  it('has the size that planning guides give for a 3 mil microstrip: about −8/+11 % by ± 20 % of width', () => {
    // Common practice, no source: own-formula guidance for planning, 50 ohm class, ± 2 % of impedance.
    const thin = stackup(copper('L1', { thickness: 18e-6 }), dielectric('prepreg', 45, 3.6), plane('L2'))
    const spread = spreadOf(boardWith(thin, { width: 0.2, thickness: 0.1, permittivity: 0.05 }), {
      ...line,
      width: 76.2e-6,
    })
    const [width] = of(spread, 'trace width')
    expect(width?.atUpper).toBeGreaterThan(-0.11)
    expect(width?.atUpper).toBeLessThan(-0.06)
    expect(width?.atLower).toBeGreaterThan(0.08)
    expect(width?.atLower).toBeLessThan(0.13)
    expect(spread.likely.highest).toBeGreaterThan(0.09)
    expect(spread.likely.highest).toBeLessThan(0.15)
  })

  it.each([
    ['an outer trace under mask', {}],
    ['an inner trace', { layer: 3, width: 75e-6 }],
    ['an outer pair', { gap: 100e-6 }],
    ['an inner pair', { layer: 3, width: 75e-6, gap: 90e-6 }],
    ['a trace beside ground', { coplanarGap: 150e-6 }],
  ])('keeps within 0.5 %% of the impedance beside the field solution for %s', (_, change) => {
    const request = { ...line, ...change }
    const made = { stackup: board.stackup, request }
    const { frequency } = board.analysis
    const solved = (at: typeof made): number =>
      chosenValue(deriveSection(at.stackup, at.request), frequency).impedance
    const { contributions } = spreadOf(board, request)
    const inputs = processInputs(board, request, deriveSection(board.stackup, request))
    expect(inputs).toHaveLength(contributions.length)
    for (const [index, { at, tolerance }] of inputs.entries()) {
      const exact = [1 - tolerance, 1 + tolerance].map(
        (factor) => solved(at(made, factor)) / solved(made) - 1,
      )
      expect(Math.abs(Number(contributions[index]?.atLower) - Number(exact[0]))).toBeLessThan(0.005)
      expect(Math.abs(Number(contributions[index]?.atUpper) - Number(exact[1]))).toBeLessThan(0.005)
    }
  })

  it('takes all at once at least as far as any likely end, and that as far as any single input', () => {
    const { contributions, likely, worst } = spreadOf(board, { ...line, gap: 100e-6 })
    expect(worst.lowest).toBeLessThan(likely.lowest)
    expect(worst.highest).toBeGreaterThan(likely.highest)
    for (const { atLower, atUpper } of contributions) {
      expect(likely.lowest).toBeLessThanOrEqual(Math.min(atLower, atUpper))
      expect(likely.highest).toBeGreaterThanOrEqual(Math.max(atLower, atUpper))
    }
  })

  it('gives a narrow trace the least tolerance of the width, and takes from a gap what the traces gain', () => {
    const floored = { ...board, fabrication: { ...board.fabrication, widthToleranceFloor: 20e-6 } }
    const [width] = processInputs(floored, { ...line, gap: 100e-6 }, deriveSection(board.stackup, line))
    expect(width?.tolerance).toBeCloseTo(20 / 90, 12)
    const made = width?.at({ stackup: board.stackup, request: { ...line, gap: 100e-6 } }, 1 + 20 / 90)
    expect(made?.request.width).toBeCloseTo(110e-6, 12)
    expect(made?.request.gap).toBeCloseTo(80e-6, 12)
  })

  it('looks at the dielectrics that its field is in, and at the mask only where it is covered', () => {
    const covered = stackup(
      mask('top'),
      copper('L1'),
      dielectric('near', 75, 3.6),
      plane('L2'),
      dielectric('far', 90, 3.6),
      plane('L3'),
    )
    const names = spreadOf(boardWith(covered, { permittivity: 0.05 }), line).contributions.map(
      ({ of: name }) => name,
    )
    expect(new Set(names)).toEqual(new Set(['L1', 'near', 'top mask']))
  })

  it('is unknown where the trace etches away at the lower end', () => {
    const thick = stackup(
      copper('L1', { thickness: 60e-6, sidewallSlope: 0.5 }),
      dielectric('prepreg', 75, 3.6),
      plane('L2'),
    )
    expect(lineSpread(boardWith(thick, { width: 0.3 }), { ...line, width: 75e-6 })).toBeNull()
  })
})
