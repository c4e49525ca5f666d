import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { assumedInputDecides } from '../../../src/findings/rules/assumedInputDecides.ts'
import { mainOffTarget } from '../../../src/findings/rules/mainOffTarget.ts'
import { stepTooLarge } from '../../../src/findings/rules/stepTooLarge.ts'
import { withThickness } from '../../../src/dielectric/withThickness.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { gaussian, route, um, withClass } from '../../signal/fixtures.ts'
import { contextOf, only, remedyOf } from '../fixtures.ts'

const base = await exampleBoard()
const routes = [route({ net: 'DQ0', ball: 'A1', neckLength: 4e-3, dogBoneLength: 0 })]
const findings = (board: Board): ReturnType<typeof assumedInputDecides> =>
  assumedInputDecides(contextOf(board, { routes }))

function assuming(board: Board, name: string, key: 'permittivity' | 'thickness'): Board {
  const assumption = {
    path: `stackup.layers[4].${key}`,
    quantity: `${key} of ${name}`,
    value: 'v',
    source: 's',
  }
  const layers = board.stackup.layers.map((part) =>
    part.kind === 'dielectric' && part.name === name ? { ...part, assumed: [assumption] } : part,
  )
  return { ...board, stackup: { ...board.stackup, layers } }
}

function withPermittivity(board: Board, name: string, relative: number): Board {
  const layers = board.stackup.layers.map((part) =>
    part.kind === 'dielectric' && part.name === name
      ? { ...part, permittivity: { ...part.permittivity, relative } }
      : part,
  )
  return { ...board, stackup: { ...board.stackup, layers } }
}

// In the model the sheet below the trace gives the permittivity; on L3 that is the core, as its foil was bonded to it.
const given = withClass(base, 'data', { main: { width: um(95), gap: null, length: null, coplanarGap: null } })

describe('an assumed dielectric', () => {
  const name = 'core 1'

  it('decides where its range reaches across the tolerance of a main route', () => {
    const finding = only(findings(assuming(given, name, 'permittivity')))
    expect(finding.severity).toBe('warning')
    expect(finding.assumed.map(({ quantity }) => quantity)).toEqual([`permittivity of ${name}`])
    expect(finding.limit.value).toBe(0.1)
    // Both ends of ± 10 % are among the details.
    const values = finding.details.filter(({ what }) => /^permittivity/.test(what)).map(({ value }) => value)
    expect(values[1]).toBeCloseTo(values[0] === undefined ? NaN : values[0] * 0.9, 9)
  })

  it('turns the verdict where the remedy says, and not before', () => {
    const board = assuming(given, name, 'permittivity')
    const { value, result } = remedyOf(only(findings(board)), /state the permittivity/)
    expect(result.value).toBeCloseTo(0.1, 5)
    const off = (relative: number): number =>
      mainOffTarget(contextOf(withPermittivity(given, name, relative), { routes })).length
    expect([off(value.value * 0.999), off(value.value * 1.001)].sort((a, b) => a - b)).toEqual([0, 1])
  })

  it('of assumed thickness decides as well', () => {
    const board = assuming(given, name, 'thickness')
    const { value } = remedyOf(only(findings(board)), /state the thickness/)
    const off = (thickness: number): number =>
      mainOffTarget(
        contextOf({ ...given, stackup: withThickness(given.stackup, name, thickness) }, { routes }),
      ).length
    expect([off(value.value * 0.999), off(value.value * 1.001)].sort((a, b) => a - b)).toEqual([0, 1])
  })

  it('decides nothing where it is stated, nor where the verdict holds over its range', () => {
    expect(findings(given)).toEqual([])
    expect(findings(assuming(withClass(given, 'data', { tolerance: 0.3 }), name, 'permittivity'))).toEqual([])
  })

  it('decides over the reflection of a neck', () => {
    const step = withClass(base, 'data', {
      target: 40,
      edge: gaussian(60),
      sourceImpedance: 40,
      loadImpedance: 40,
    })
    const peak = stepTooLarge(contextOf(withClass(step, 'data', { reflectionLimit: 0.001 }), { routes }))[0]
      ?.measured.value
    if (peak === undefined) throw new Error('no reflection')
    const limited = withClass(step, 'data', { reflectionLimit: peak * 1.1 })
    const finding = only(findings(assuming(limited, name, 'permittivity')))
    expect(finding.measured.what).toMatch(/reflection/)
    expect(finding.measured.value).toBeCloseTo(peak, 9)
  })
})

describe('an assumed edge', () => {
  const assumed = [{ path: 'classes[0].edge', quantity: 'edge of class data', value: 'v', source: 's' }]
  const step = withClass(base, 'data', {
    target: 40,
    edge: gaussian(80),
    sourceImpedance: 40,
    loadImpedance: 40,
    assumed,
  })

  it('decides where another plausible rise time has another verdict, which turns where the remedy says', () => {
    const finding = only(findings(step))
    const { value } = remedyOf(finding, /state the edge/)
    const over = (rise: number): number =>
      stepTooLarge(contextOf(withClass(step, 'data', { edge: gaussian(rise / 1e-12) }), { routes })).length
    expect(over(value.value * 0.999)).toBe(1)
    expect(over(value.value * 1.001)).toBe(0)
  })

  it('decides nothing where it is far from the limit, or stated', () => {
    expect(findings(withClass(step, 'data', { edge: gaussian(500) }))).toEqual([])
    expect(findings(withClass(step, 'data', { assumed: [] }))).toEqual([])
  })
})
