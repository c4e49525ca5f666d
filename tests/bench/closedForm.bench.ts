/**
 * The closed-form kernels beside the same formulas in C at -O3, on the same seeded inputs, in one run:
 *
 *     npx vitest bench --run tests/bench/closedForm.bench.ts
 *
 * Prints a table of nanoseconds per call and their ratio (aim: 2), the best of seven rounds each, taken in turns; sums of
 * the results are compared, so that both compute the same and nothing is optimised away. What the wrapped formulas cost,
 * objects, limits and bands included, follows as vitest's own benches. Without gcc the C column is left out and said so.
 */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { bench, describe } from 'vitest'
import { microstripHammerstadJensen } from '../../src/impedance/closedForm/microstripHammerstadJensen.ts'
import { microstripPairKirschningJansen } from '../../src/impedance/closedForm/microstripPairKirschningJansen.ts'
import { offsetEquivalentSpacing } from '../../src/impedance/closedForm/offsetEquivalentSpacing.ts'
import { striplinePairCohn } from '../../src/impedance/closedForm/striplinePairCohn.ts'
import { striplineWheeler } from '../../src/impedance/closedForm/striplineWheeler.ts'
import { CATALOGUE } from '../../src/impedance/catalogue.ts'
import type { Formula } from '../../src/impedance/estimate.ts'
import { lineLoss } from '../../src/impedance/lineLoss.ts'
import type { CrossSection } from '../../src/section/crossSection.ts'
import { lineSection, TEST_FREQUENCY } from '../helpers/lineSection.ts'

const COUNT = 50_000
const ROUNDS = 7

interface Shape {
  readonly width: number
  readonly thickness: number
  readonly height: number
  readonly gap: number
  readonly relativePermittivity: number
  readonly below: number
  readonly above: number
  readonly spacing: number
}

/** The generator of kernels.c: a linear congruence modulo 2^32. */
function shapes(): Shape[] {
  let state = 20260101
  const unit = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 4294967296
  }
  return Array.from({ length: COUNT }, () => {
    const width = 60e-6 + 190e-6 * unit()
    const thickness = 12e-6 + 38e-6 * unit()
    const height = 60e-6 + 190e-6 * unit()
    const gap = 60e-6 + 240e-6 * unit()
    const relativePermittivity = 3 + 1.5 * unit()
    const below = 60e-6 + 190e-6 * unit()
    const above = 60e-6 + 190e-6 * unit()
    const spacing = below + thickness + above
    return { width, thickness, height, gap, relativePermittivity, below, above, spacing }
  })
}

type Kernel = (shape: Shape) => number

const KERNELS: Readonly<Record<string, Kernel>> = {
  microstrip: (shape) => {
    const { impedance, effectivePermittivity } = microstripHammerstadJensen(shape)
    return impedance + effectivePermittivity
  },
  stripline: striplineWheeler,
  offset: offsetEquivalentSpacing,
  'microstrip-pair': (shape) => {
    const { even, odd } = microstripPairKirschningJansen(shape)
    return even.impedance + odd.impedance + even.effectivePermittivity + odd.effectivePermittivity
  },
  'stripline-pair': (shape) => {
    const { even, odd } = striplinePairCohn(shape)
    return even + odd
  },
}

interface Timing {
  readonly nanoseconds: number
  readonly sum: number
}

function timeOurs(kernel: Kernel, inputs: readonly Shape[]): Timing {
  let best = Infinity
  let sum = 0
  for (let round = 0; round < ROUNDS; round += 1) {
    const start = performance.now()
    sum = 0
    for (const shape of inputs) sum += kernel(shape)
    best = Math.min(best, ((performance.now() - start) * 1e6) / inputs.length)
  }
  return { nanoseconds: best, sum }
}

function timeC(): ReadonlyMap<string, Timing> | null {
  const folder = mkdtempSync(join(tmpdir(), 'kernels-'))
  try {
    const program = join(folder, 'kernels')
    const source = join(import.meta.dirname, 'kernels.c')
    execFileSync('gcc', ['-O3', '-std=c11', '-o', program, source, '-lm'], { stdio: 'pipe' })
    const lines = execFileSync(program, [String(COUNT)], { encoding: 'utf8' })
      .trim()
      .split('\n')
    return new Map(
      lines.map((line) => {
        const [name = '', nanoseconds, sum] = line.split(' ')
        return [name, { nanoseconds: Number(nanoseconds), sum: Number(sum) }]
      }),
    )
  } catch (error) {
    console.log(`no comparison with C: ${String(error).split('\n')[0] ?? ''}`)
    return null
  } finally {
    rmSync(folder, { recursive: true })
  }
}

function compare(): void {
  const inputs = shapes()
  const compiled = timeC()
  console.log('kernel            ours/ns   C -O3/ns   ratio   sums agree')
  for (const [name, kernel] of Object.entries(KERNELS)) {
    const ours = timeOurs(kernel, inputs)
    const theirs = compiled?.get(name)
    const [nanoseconds, ratio, agree] =
      theirs === undefined
        ? ['–', '–', '–']
        : [
            theirs.nanoseconds.toFixed(0),
            (ours.nanoseconds / theirs.nanoseconds).toFixed(2),
            String(Math.abs(ours.sum / theirs.sum - 1) < 1e-12),
          ]
    console.log(
      `${name.padEnd(16)}${ours.nanoseconds.toFixed(0).padStart(8)}${nanoseconds.padStart(11)}${ratio.padStart(8)}   ${agree}`,
    )
  }
}

compare()

const UM = 1e-6
const SINGLE = { width: 100 * UM, thickness: 18 * UM, below: [[100 * UM, 4]] } as const
const PLANES = { ...SINGLE, above: [[150 * UM, 3.7]], twoPlanes: true } as const
const MASK = { overLaminate: 20 * UM, overTrace: 15 * UM, permittivity: 3.5 }
const SECTIONS: Readonly<Record<string, CrossSection>> = {
  microstrip: lineSection(SINGLE),
  'stripline, two dielectrics': lineSection(PLANES),
  'microstrip pair': lineSection({ ...SINGLE, gap: 120 * UM }),
  'microstrip pair under mask': lineSection({ ...SINGLE, gap: 120 * UM, mask: MASK }),
  'stripline pair, two dielectrics': lineSection({ ...PLANES, gap: 120 * UM }),
}

let consumed = 0

describe('wrapped: one estimate by the chosen form', () => {
  for (const [name, section] of Object.entries(SECTIONS)) {
    const formula = firstFor(section)
    bench(`section: ${name}`, () => {
      consumed += formula.estimate(section, TEST_FREQUENCY).claimedError
    })
  }
})

describe('wrapped: loss of a line', () => {
  for (const [name, section] of Object.entries(SECTIONS)) {
    const { modes } = firstFor(section).estimate(section, TEST_FREQUENCY)
    bench(`section: ${name}`, () => {
      consumed += lineLoss(section, modes, TEST_FREQUENCY).conductor
    })
  }
})

process.on('exit', () => {
  if (!Number.isFinite(consumed)) console.log('a result was not finite')
})

function firstFor(section: CrossSection): Formula {
  const formula = CATALOGUE.find((candidate) => candidate.applies(section))
  if (formula === undefined) throw new RangeError('no closed form answers')
  return formula
}
