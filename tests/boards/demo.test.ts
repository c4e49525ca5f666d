import { describe, expect, it } from 'vitest'
import { review } from '../../src/review.ts'
import { boardOf, DESCRIPTIONS } from './referenceBoards.ts'

const reviews = new Map(
  await Promise.all(DESCRIPTIONS.map(async (path) => [path, review(await boardOf(path))] as const)),
)

function codesOf(path: string, severity?: string): string[] {
  const findings = reviews.get(path)?.findings ?? []
  const wanted = findings.filter((finding) => severity === undefined || finding.severity === severity)
  return [...new Set(wanted.map((finding) => finding.code))].toSorted((a, b) => a.localeCompare(b))
}

function unescaped(path: string): number {
  const escapes = reviews.get(path)?.escapes ?? []
  return escapes.reduce((sum, { plans, chosen }) => {
    return sum + (plans.find((plan) => plan.technology === chosen)?.unescaped.length ?? NaN)
  }, 0)
}

describe('the review of a shipped description', () => {
  it.each(DESCRIPTIONS)('of %s comes out the same twice', async (path) => {
    const again = JSON.stringify(review(await boardOf(path)).findings)
    expect(again).toBe(JSON.stringify(reviews.get(path)?.findings))
  })

  it.each(DESCRIPTIONS)('of %s holds no number that is not finite', (path) => {
    const odd: string[] = []
    JSON.stringify(reviews.get(path), (key, value: unknown) => {
      if (typeof value === 'number' && !Number.isFinite(value)) odd.push(key)
      return value
    })
    expect(odd).toEqual([])
  })
})

describe('the hydrophone recorder', () => {
  const path = 'demo/hydrophone-recorder.yaml'

  it('gets every signal out of both packages', () => {
    expect(unescaped(path)).toBe(0)
  })

  it('shows findings of many kinds', () => {
    expect(codesOf(path)).toEqual(
      expect.arrayContaining([
        'antipads-merge',
        'assumed-input-decides',
        'claim-refuted',
        'main-off-target',
        'neck-off-target',
        'neck-too-long',
        'skew-too-large',
        'step-too-large',
        'stub-too-long',
        'trace-over-antipad',
      ]),
    )
  })

  it('has errors of slow nets on the layer whose planes are far away, and of storage lanes on vias that hang', () => {
    const errors = reviews.get(path)?.findings.filter(({ severity }) => severity === 'error') ?? []
    expect(errors.map(({ code, subject }) => [code, subject.name, subject.layer])).toEqual([
      ['main-off-target', 'slow', 5],
      ['neck-off-target', 'storage lane', 3],
      ['step-too-large', 'SSD_TX0_P', 3],
      ['neck-too-long', 'SSD_RX1_N', 3],
    ])
    const [step] = errors.filter(({ code }) => code === 'step-too-large')
    const without = step?.details.find(({ what }) => what === 'without its via')?.value ?? NaN
    // 1.3 mm of barrel beyond L3: five times the limit with it, within the limit without.
    expect(step?.measured.value).toBeGreaterThan(0.12)
    expect(Math.abs(without)).toBeLessThan(0.03)
  })

  it('refutes the claim for the processor and confirms the one for the memory', () => {
    const claims = reviews.get(path)?.escapes.flatMap((escape) => escape.claims) ?? []
    expect(claims.map(({ verdict }) => verdict)).toEqual(['refuted', 'confirmed'])
  })
})

describe('the reef camera', () => {
  const path = 'demo/reef-camera-hdi.yaml'

  it('gets every signal out, as claimed', () => {
    expect(unescaped(path)).toBe(0)
    const claims = reviews.get(path)?.escapes.flatMap((escape) => escape.claims) ?? []
    expect(claims.map(({ verdict }) => verdict)).toEqual(['confirmed'])
  })

  it('is clean: every net leaves on a layer that carries its main route', () => {
    expect(codesOf(path, 'error')).toEqual([])
    expect(codesOf(path, 'warning')).toEqual([])
  })
})

describe('the boards around open ball maps', () => {
  // 38 nets of OrangeCrab r0.2.1 neck down from 0.121 to 0.089 mm in the ball field of its top layer (counted in the
  // copper file named in reference/boards/ball-maps/SOURCES.md).
  it('find the neck of 89 um on the top layer of the 285-ball board off its 50 ohm', () => {
    const lines = reviews.get('boards/csfbga285-six-layer.yaml')?.lines
    const neck = lines?.neck('memory', 1, 'U1')
    expect(neck?.width).toBeCloseTo(89e-6, 9)
    expect(neck?.impedance?.impedance).toBeGreaterThan(55)
    expect(codesOf('boards/csfbga285-six-layer.yaml')).toContain('neck-off-target')
  })

  it.each(['boards/csfbga285-six-layer.yaml', 'boards/clg400-six-layer.yaml'])(
    'show the targets of layer 3 in %s as conflicts',
    (path) => {
      const errors = reviews.get(path)?.findings.filter(({ code }) => code === 'main-off-target') ?? []
      expect(errors.length).toBeGreaterThan(0)
      expect(new Set(errors.map(({ subject }) => subject.layer))).toEqual(new Set([3]))
    },
  )
})
