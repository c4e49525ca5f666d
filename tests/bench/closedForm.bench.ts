/**
 * The closed-form kernels beside the same formulas in C at -O3, on the same seeded inputs, in one run:
 *
 *     npx vitest bench --run tests/bench/closedForm.bench.ts
 *
 * Prints a table of nanoseconds per call and their ratio (aim: 2). kernels.ts is bundled as the product is and runs in a
 * node of its own: the test runner reaches every imported function through an accessor, which would count a third more.
 * The two programs run in turns and the best turn of each counts, so that a busy machine spoils neither. Sums of the
 * results are compared, so that both compute the same and nothing is optimised away.
 *
 * What the wrapped formulas cost, objects, limits and bands included, follows as vitest's own benches. Without gcc the C
 * column is left out and said so.
 */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { buildSync } from 'esbuild'
import { bench, describe } from 'vitest'
import { CATALOGUE } from '../../src/impedance/catalogue.ts'
import type { Formula } from '../../src/impedance/estimate.ts'
import { lineLoss } from '../../src/impedance/lineLoss.ts'
import type { CrossSection } from '../../src/section/crossSection.ts'
import { lineSection, TEST_FREQUENCY } from '../helpers/lineSection.ts'

const COUNT = 50_000
const TURNS = 5

interface Timing {
  readonly nanoseconds: number
  readonly sum: number
}

type Timings = ReadonlyMap<string, Timing>

/** Runs a program that prints name, nanoseconds and sum per line. */
function time(program: string, ...given: string[]): Timings {
  const lines = execFileSync(program, [...given, String(COUNT)], { encoding: 'utf8' })
    .trim()
    .split('\n')
  return new Map(
    lines.map((line) => {
      const [name = '', nanoseconds, sum] = line.split(',')
      return [name, { nanoseconds: Number(nanoseconds), sum: Number(sum) }]
    }),
  )
}

function bundle(folder: string): string {
  const outfile = join(folder, 'kernels.mjs')
  buildSync({
    entryPoints: [join(import.meta.dirname, 'kernels.ts')],
    outfile,
    bundle: true,
    minify: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
  })
  return outfile
}

function compile(folder: string): string | null {
  const program = join(folder, 'kernels')
  const source = join(import.meta.dirname, 'kernels.c')
  try {
    execFileSync('gcc', ['-O3', '-std=c11', '-o', program, source, '-lm'], { stdio: 'pipe' })
    return program
  } catch (error) {
    console.log(`no comparison with C: ${String(error).split('\n')[0] ?? ''}`)
    return null
  }
}

function best(runs: readonly Timings[], name: string): Timing | undefined {
  const timings = runs.flatMap((run) => run.get(name) ?? [])
  return timings.sort((one, other) => one.nanoseconds - other.nanoseconds)[0]
}

function printRow(name: string, ours: Timing, theirs: Timing | undefined): void {
  const cells = [ours.nanoseconds.toFixed(1)]
  if (theirs !== undefined) {
    const agree = Math.abs(ours.sum / theirs.sum - 1) < 1e-12
    const ratio = (ours.nanoseconds / theirs.nanoseconds).toFixed(2)
    cells.push(theirs.nanoseconds.toFixed(1), ratio, String(agree))
  }
  console.log(name.padEnd(16) + cells.map((cell) => cell.padStart(11)).join(''))
}

function compare(): void {
  const folder = mkdtempSync(join(tmpdir(), 'kernels-'))
  try {
    const module = bundle(folder)
    const program = compile(folder)
    const ours: Timings[] = []
    const theirs: Timings[] = []
    for (let turn = 0; turn < TURNS; turn += 1) {
      ours.push(time(process.execPath, module))
      if (program !== null) theirs.push(time(program))
    }
    console.log('kernel              ours/ns   C -O3/ns      ratio sums agree')
    for (const name of ours[0]?.keys() ?? []) {
      const timing = best(ours, name)
      if (timing !== undefined) printRow(name, timing, best(theirs, name))
    }
  } finally {
    rmSync(folder, { recursive: true })
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
