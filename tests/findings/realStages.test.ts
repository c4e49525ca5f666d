import { describe, expect, it } from 'vitest'
import type { Board } from '../../src/board/board.ts'
import { withThickness } from '../../src/dielectric/withThickness.ts'
import type { Finding, FindingCode } from '../../src/findings/finding.ts'
import { review } from '../../src/review.ts'
import { exampleBoard } from '../board/exampleBoard.ts'
import { boardOf } from '../boards/referenceBoards.ts'
import { gaussian, um, withClass, withNet } from '../signal/fixtures.ts'
import { remedyOf } from './fixtures.ts'

const base = await exampleBoard()

/** Findings of one code about one class or net, by the real stages. */
function found(board: Board, code: FindingCode, name: string): Finding[] {
  return review(board).findings.filter((finding) => {
    const { subject } = finding
    return (
      finding.code === code && (subject.name === name || subject.alike.some((each) => each.includes(name)))
    )
  })
}

function first(findings: readonly Finding[]): Finding {
  const [finding] = findings
  if (finding === undefined) throw new Error('not found')
  return finding
}

describe('with the real stages, a remedy that is made', () => {
  const wideMain = withClass(base, 'data', {
    main: { width: um(220), gap: null, length: null, coplanarGap: null },
  })

  it('brings a main route to its target by width', () => {
    const finding = first(found(wideMain, 'main-off-target', 'data'))
    const { value } = remedyOf(finding, /narrow the main route/)
    const main = { width: value.value, gap: null, length: null, coplanarGap: null }
    expect(found(withClass(base, 'data', { main }), 'main-off-target', 'data')).toEqual([])
  })

  it('brings a main route to its target by height', () => {
    const finding = first(found(wideMain, 'main-off-target', 'data'))
    const { value, action } = remedyOf(finding, /^bring/)
    const stackup = withThickness(base.stackup, action.replace(/^bring (.*) to$/, '$1'), value.value)
    expect(found({ ...wideMain, stackup }, 'main-off-target', 'data')).toEqual([])
  })

  it('brings a reflection below its limit by the width of the main route, and of the neck', () => {
    // Necks of 80 um into a main route of 40 ohm, at a fast edge and a strict limit.
    const step = withClass(base, 'data', {
      target: 40,
      sourceImpedance: 40,
      loadImpedance: 40,
      edge: gaussian(25),
      reflectionLimit: 0.03,
      neck: { width: um(80), gap: null },
    })
    const finding = first(found(step, 'step-too-large', 'DQ'))
    expect(finding.measured.value).toBeGreaterThan(0.03)
    const neck = remedyOf(finding, /the neck to/)
    const wider = withClass(step, 'data', { neck: { width: neck.value.value, gap: null } })
    expect(found(wider, 'step-too-large', 'DQ')).toEqual([])
  })

  it('makes up a skew by the length of the earlier main route', () => {
    const lengths = (first: number): Board =>
      withNet(withNet(base, 'DQ0', { mainLength: first, matchGroup: 'two' }), 'DQ7', {
        mainLength: 40e-3,
        matchGroup: 'two',
      })
    const limited = (board: Board): Board => withClass(board, 'data', { groupSkewLimit: 1e-12 })
    const finding = first(found(limited(lengths(40e-3)), 'skew-too-large', 'two'))
    const { value } = remedyOf(finding, /lengthen the main route of DQ0/)
    expect(found(limited(lengths(40e-3 + value.value)), 'skew-too-large', 'two')).toEqual([])
  })

  it('is followed by the verdict that an assumed permittivity was said to turn', async () => {
    const changes = (permittivity: string): Promise<Board> =>
      exampleBoard([
        [
          '{prepreg: prepreg 1, thickness: 75 um, permittivity: 3.6,',
          `{prepreg: prepreg 1, thickness: 75 um, ${permittivity}`,
        ],
      ])
    const main = { width: um(138), gap: null, length: null, coplanarGap: null }
    const of = async (permittivity: string): Promise<Board> =>
      withClass(await changes(permittivity), 'data', { main, tolerance: 0.05 })
    const finding = first(found(await of(''), 'assumed-input-decides', 'data'))
    const { value } = remedyOf(finding, /state the relative permittivity of prepreg 1/)
    const offAt = async (factor: number): Promise<number> =>
      found(await of(`permittivity: ${(value.value * factor).toFixed(6)},`), 'main-off-target', 'data').length
    expect([await offAt(0.995), await offAt(1.005)].sort((a, b) => a - b)).toEqual([0, 1])
  })
})

describe('the findings of the demo boards', () => {
  it.each(['demo/hydrophone-recorder.yaml', 'demo/reef-camera-hdi.yaml'])(
    'of %s can all be printed',
    async (path) => {
      const { findings } = review(await boardOf(path))
      expect(findings.length).toBeGreaterThan(0)
      for (const { measured, limit, details, remedies } of findings) {
        const figures = [
          measured,
          limit,
          ...details,
          ...remedies.flatMap(({ value, result }) => [value, result]),
        ]
        expect(figures.filter(({ value }) => !Number.isFinite(value))).toEqual([])
      }
    },
  )

  it.each(['demo/hydrophone-recorder.yaml', 'demo/reef-camera-hdi.yaml'])(
    'of %s name no fault twice',
    async (path) => {
      const { findings } = review(await boardOf(path))
      const keys = findings.map(({ code, severity, subject, measured }) =>
        [code, severity, subject.kind, subject.name, subject.layer, subject.package, measured.what].join('|'),
      )
      expect(new Set(keys).size).toBe(keys.length)
    },
  )
})
