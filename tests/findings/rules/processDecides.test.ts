import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { peakOfEnd } from '../../../src/findings/neckEnds.ts'
import { processDecides } from '../../../src/findings/rules/processDecides.ts'
import type { LineTable } from '../../../src/impedance/lineTable.ts'
import { rootSumOfSquares } from '../../../src/numerics/rootSumOfSquares.ts'
import type { LineSpread } from '../../../src/tolerance/lineSpreads.ts'
import type { Contribution } from '../../../src/tolerance/processSpread.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { gaussian, route, um, withClass } from '../../signal/fixtures.ts'
import { contextOf, only, remedyOf } from '../fixtures.ts'

const base = withClass(await exampleBoard(), 'data', { edge: gaussian(60), neckAllowance: null })
const routes = [3.2e-3, 3.15e-3].map((neckLength, index) =>
  route({ net: `DQ${index}`, ball: 'A1', neckLength, width: um(80) }),
)

const nothing = rootSumOfSquares([])
const NONE = {
  'trace width': nothing,
  'dielectric thickness': nothing,
  'copper thickness': nothing,
  permittivity: nothing,
}

/** Width takes 8 %, the dielectric 5 % either way, each held to a share of its tolerance. */
function contributions({ width = 1, thickness = 1 } = {}): Contribution[] {
  const input = { of: 'L1', nominal: um(80), assumed: false }
  const move = (most: number): Pick<Contribution, 'atLower' | 'atUpper'> => ({
    atLower: most,
    atUpper: 0 - most,
  })
  return [
    { ...input, quantity: 'trace width', tolerance: 0.2 * width, ...move(0.08 * width) },
    { ...input, quantity: 'dielectric thickness', tolerance: 0.1 * thickness, ...move(-0.05 * thickness) },
  ]
}

function spreads(held: { width?: number; thickness?: number } = {}) {
  const inputs = contributions(held)
  const likely = rootSumOfSquares(inputs)
  return ({ entries }: LineTable): LineSpread[] =>
    entries.map((entry) => ({
      entry,
      spread: { contributions: inputs, byQuantity: NONE, likely, worst: { lowest: -0.13, highest: 0.13 } },
    }))
}

const findings = (board: Board, of = spreads()): ReturnType<typeof processDecides> =>
  processDecides(contextOf(board, { routes, spreads: of }))
const withLimit = (reflectionLimit: number): Board => withClass(base, 'data', { reflectionLimit })
/** Peak of the longest neck as described. */
const described = Math.max(
  ...contextOf(base, { routes })
    .signals.flatMap(({ net, ends }) => (net === 'DQ0' ? ends : []))
    .map(peakOfEnd),
)

describe('a neck about which the process decides', () => {
  const board = withLimit(1.2 * described)

  it('passes as described and fails at a likely end', () => {
    const finding = only(findings(board))
    expect(finding.subject.name).toBe('DQ0')
    expect(finding.severity).toBe('warning')
    expect(finding.measured.value).toBeGreaterThan(1.2 * described)
    const nominal = finding.details.find(({ what }) => what === 'peak reflection as described')
    expect(nominal?.value).toBeCloseTo(described, 12)
  })

  it('names the necks of its line that do the same', () => {
    expect(only(findings(board)).subject.alike).toEqual(['DQ1'])
  })

  it('is none where both ends pass, or the neck fails as described, or its spread is not known', () => {
    expect(findings(withLimit(0.5))).toEqual([])
    expect(findings(withLimit(1e-4))).toEqual([])
    expect(findings(board, () => [])).toEqual([])
  })

  it('vanishes at the share of every tolerance that it proposes', () => {
    const share = remedyOf(only(findings(board)), /every tolerance/).value.value
    expect(findings(board, spreads({ width: share, thickness: share }))).toEqual([])
    expect(findings(board, spreads({ width: 1.2 * share, thickness: 1.2 * share }))).toHaveLength(1)
  })

  it('asks for the input alone that moves it most, where that is enough', () => {
    const peak = only(findings(board)).measured.value
    const nearly = withLimit(0.97 * peak)
    const { action, value } = remedyOf(only(findings(nearly)), /hold/)
    expect(action).toContain('the trace width of L1')
    expect(value.value).toBeLessThan(0.2)
    expect(findings(nearly, spreads({ width: value.value / 0.2 }))).toEqual([])
  })
})
