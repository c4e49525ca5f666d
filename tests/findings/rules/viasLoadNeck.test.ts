import { describe, expect, it } from 'vitest'
import { viasLoadNeck } from '../../../src/findings/rules/viasLoadNeck.ts'
import { type LineEntry, runningValue } from '../../../src/impedance/lineTable.ts'
import { exampleBoard } from '../../board/exampleBoard.ts'
import { modelTable, route } from '../../signal/fixtures.ts'
import { contextOf, only } from '../fixtures.ts'

const base = await exampleBoard()
const routes = [route({ net: 'DQ0', ball: 'A1' })]

/** Necks whose impedance among the vias is `ratio` times that between solid planes; `better` with a smaller antipad. */
function findings(ratio: number, better = ratio): ReturnType<typeof viasLoadNeck> {
  const loadedBy = (factor: number, entry: Pick<LineEntry, 'impedance'>): LineEntry['loaded'] => {
    if (entry.impedance === null) return null
    const { impedance, delay, effectivePermittivity } = entry.impedance
    return { impedance: factor * impedance, delay, effectivePermittivity, band: 0.01, ratio: factor }
  }
  const context = contextOf(base, {
    routes,
    lines: (board, all) => {
      const table = modelTable(board, all)
      const entries = table.entries.map((entry): LineEntry => {
        const loaded = entry.stretch === 'neck' && entry.used ? loadedBy(ratio, entry) : null
        const passage = loaded && { length: 2e-3, beside: [] }
        const mostLoaded = loaded && passage && { passage, loaded }
        return {
          ...entry,
          passage,
          loaded,
          mostLoaded,
          runs: entry.impedance && runningValue(entry.impedance, loaded),
        }
      })
      return { ...table, entries }
    },
  })
  const rerun = {
    ...context.rerun,
    amongVias: (_board: unknown, impedance: NonNullable<LineEntry['impedance']>) =>
      loadedBy(better, { impedance }),
  }
  return viasLoadNeck({ ...context, rerun })
}

describe('vias that load a neck', () => {
  it('are found where the change is above the tolerance of the class, up or down', () => {
    const finding = only(findings(1.2))
    expect(finding.code).toBe('vias-load-neck')
    expect(finding.measured.value).toBeCloseTo(0.2, 12)
    expect(finding.limit.value).toBe(0.1)
    expect(finding.details.map(({ what }) => what)).toEqual(
      expect.arrayContaining(['among the vias', 'over solid planes']),
    )
    expect(only(findings(0.85)).measured.value).toBeCloseTo(-0.15, 12)
  })

  it('are none within the tolerance', () => {
    expect(findings(1.09)).toEqual([])
    expect(findings(1)).toEqual([])
  })

  it('are cured by the smallest antipad that the drill allows, where that brings the neck within the tolerance', () => {
    const [remedy] = only(findings(1.2, 1.05)).remedies
    expect(remedy?.action).toBe('make the antipad')
    expect(Number(remedy?.value.value)).toBeLessThan(base.vias[0]?.antipadDiameter ?? 0)
    expect(only(findings(1.2, 1.15)).remedies).toEqual([])
  })
})
