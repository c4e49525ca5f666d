import { describe, expect, it } from 'vitest'
import { CAPABILITY_NAMES, capabilityClass } from '../../../src/board/fabrication/capabilityClasses.ts'
import { exampleBoard, exampleText, readText } from '../exampleBoard.ts'

/** Divided once, so that it is the double nearest to the length. */
const mil = (value: number): number => (value * 254) / 1e7
const CLASS = 'fabrication:\n  class: advanced\n  trace_width: {outer: 80 um, inner: 75 um}'

describe('capability classes', () => {
  it.each(CAPABILITY_NAMES)('%s has every limit, and a source for each', (name) => {
    const capability = capabilityClass(name)
    const keys = Object.keys(capability?.limits ?? {})
    expect(keys).toHaveLength(16)
    const sourced = new Set(Object.keys(capability?.sources ?? {}).map((key) => key.split('.')[0] ?? ''))
    expect(keys.filter((key) => !sourced.has(key))).toEqual([])
    expect(capability?.date).toMatch(/^\d{4}-\d\d-\d\d$/)
  })

  // Rush PCB, published capability table, standard and advanced.
  it('have the figures of the published table', () => {
    const standard = capabilityClass('standard')
    const advanced = capabilityClass('advanced')
    expect(standard?.limits).toMatchObject({
      trace_width: mil(4),
      trace_gap: mil(4),
      minimum_dielectric: mil(3),
    })
    expect(standard?.limits).toMatchObject({ registration: mil(5), mask_web: mil(4) })
    expect(standard?.holes).toMatchObject({ padOverDrill: mil(10), antipadOverDrill: mil(20) })
    expect(advanced?.limits).toMatchObject({
      trace_width: mil(3),
      trace_gap: mil(3),
      minimum_dielectric: mil(2),
    })
    expect(advanced?.limits.registration).toBeCloseTo(mil(3), 12)
    expect(advanced?.limits.mask_web).toBeCloseTo(mil(3.4), 12)
  })

  it('never ask less of a better class', () => {
    const [standard, advanced] = ['standard', 'advanced'].map((name) => capabilityClass(name)?.limits)
    for (const key of [
      'drill_to_copper',
      'hole_to_hole',
      'registration',
      'mask_web',
      'minimum_dielectric',
    ] as const) {
      expect(advanced?.[key]).toBeLessThan(standard?.[key] ?? 0)
    }
  })
})

describe('fabrication limits', () => {
  it('are the described ones, then those of the class', async () => {
    const { fabrication } = await exampleBoard()
    expect(fabrication.traceWidth).toEqual({ outer: 80e-6, inner: 75e-6 })
    expect(fabrication.traceGap).toEqual({ outer: mil(3), inner: mil(3) })
    expect(fabrication.className).toBe('advanced')
    expect(fabrication.source).toContain('Rush PCB')
  })

  it('of a stated class are assumed only where the class has no source', async () => {
    const { fabrication } = await exampleBoard()
    const paths = fabrication.assumed.map(({ path }) => path)
    expect(paths).toContain('fabrication.hole_to_hole')
    expect(paths).toContain('fabrication.aspect_ratio.microvia')
    expect(paths).not.toContain('fabrication.trace_gap.outer')
    expect(paths).not.toContain('fabrication.aspect_ratio.drilled')
  })

  it('are all assumed where no class is stated', async () => {
    const { fabrication, assumptions } = await exampleBoard([[CLASS, 'fabrication: {trace_gap: 90 um}']])
    const paths = fabrication.assumed.map(({ path }) => path)
    expect(fabrication.className).toBe('standard')
    expect(paths).toEqual(
      expect.arrayContaining([
        'fabrication.class',
        'fabrication.trace_width.outer',
        'fabrication.registration',
      ]),
    )
    expect(paths).not.toContain('fabrication.trace_gap.outer')
    expect(assumptions).toEqual(expect.arrayContaining([...fabrication.assumed]))
  })

  it('may be left out altogether', async () => {
    const { fabrication } = await exampleBoard([[`${CLASS}\n`, '']])
    expect(fabrication.traceWidth).toEqual({ outer: mil(4), inner: mil(4) })
  })

  it('take one value for both sides, one side alone, and parts of a ring', async () => {
    const { fabrication } = await exampleBoard([
      [
        CLASS,
        'fabrication: {class: hdi, trace_width: 70 um, trace_gap: {inner: 60 um}, annular_ring: {external: 50 um, ipc_class: 3}, aspect_ratio: 9}',
      ],
    ])
    expect(fabrication.traceWidth).toEqual({ outer: 70e-6, inner: 70e-6 })
    expect(fabrication.traceGap).toEqual({ outer: 75e-6, inner: 60e-6 })
    expect(fabrication.annularRing).toMatchObject({ ipcClass: 3, external: 50e-6, internal: 0 })
    expect(fabrication.aspectRatio).toEqual({ drilled: 9, microvia: 0.8 })
  })

  it('of an unknown class are refused with the nearest one', async () => {
    const { issues } = await readText(exampleText([['class: advanced', 'class: advenced']]))
    expect(issues).toHaveLength(1)
    expect(issues[0]).toMatchObject({
      path: 'fabrication.class',
      line: 31,
      allowed: 'standard, advanced, hdi',
    })
    expect(issues[0]?.message).toContain('did you mean "advanced"?')
  })
})
