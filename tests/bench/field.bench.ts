/**
 * The field solution beside the finite elements of reference/field on the same sections, in one run:
 *
 *     npx vitest bench --run tests/bench/field.bench.ts
 *
 * Prints unknowns, milliseconds (best of fifteen, warm), the error against the table of finite elements bounded from both
 * sides, and the same of finite elements made as coarse as about 0.1 % allows. Aims: trace 5 ms, pair 10 ms, under mask 15
 * and 30 ms. Without python3, numpy and scipy that column is left out and said so.
 */
import { execFileSync } from 'node:child_process'
import { join } from 'node:path'
import { bench, describe } from 'vitest'
import { fieldModes } from '../../src/impedance/field/fieldLine.ts'
import type { CrossSection } from '../../src/section/crossSection.ts'
import { readFiniteElements, sectionOfCase } from '../helpers/finiteElementCases.ts'

const NAMES = ['stripline, centred, trapezoid', 'stripline pair, tight', 'coated', 'coated pair'] as const
/** One level finer than this estimate is what most sections take for 0.1 %. */
const REFINEMENT = { levels: 1, order: 3 }
const TURNS = 15
/** Order of the finite elements, and the finest of them over the smallest length. */
const FINITE_ELEMENTS = ['4', '0.01'] as const

interface Timing {
  readonly milliseconds: number
  readonly impedance: number
}

const cases = readFiniteElements().cases.filter(({ name }) => NAMES.some((wanted) => wanted === name))

function solve(section: CrossSection): { impedance: number; unknowns: number } {
  const { modes, unknowns } = fieldModes(section, (sheet) => sheet.permittivity.relative, REFINEMENT)
  return { impedance: modes.kind === 'single' ? modes.line.impedance : modes.odd.impedance, unknowns }
}

function ours(section: CrossSection): Timing & { unknowns: number } {
  const solved = solve(section)
  let milliseconds = Infinity
  for (let turn = 0; turn < TURNS; turn += 1) {
    const start = performance.now()
    solve(section)
    milliseconds = Math.min(milliseconds, performance.now() - start)
  }
  return { ...solved, milliseconds }
}

function finiteElements(): ReadonlyMap<string, Timing> {
  try {
    const script = join(import.meta.dirname, 'finiteElementTimes.py')
    const environment = { ...process.env, OMP_NUM_THREADS: '1', PYTHONDONTWRITEBYTECODE: '1' }
    const printed = execFileSync('python3', [script, ...FINITE_ELEMENTS, ...NAMES], {
      encoding: 'utf8',
      env: environment,
      stdio: ['ignore', 'pipe', 'pipe'],
    })
    return new Map(
      printed
        .trim()
        .split('\n')
        .map((line) => {
          const [name = '', milliseconds, impedance] = line.split('\t')
          return [name, { milliseconds: Number(milliseconds), impedance: Number(impedance) }]
        }),
    )
  } catch (error) {
    console.log(`no comparison with finite elements: ${String(error).split('\n')[0] ?? ''}`)
    return new Map()
  }
}

function compare(): void {
  const theirs = finiteElements()
  console.log(
    'section                          unknowns        ms   error  elements/ms   error   ratio (potential alone)',
  )
  for (const row of cases) {
    const section = sectionOfCase(row)
    const exact = row.singleImpedance ?? row.oddImpedance
    if (section === null || exact === null) continue
    const mine = ours(section)
    const other = theirs.get(row.name)
    const error = (impedance: number): string => `${(100 * Math.abs(impedance / exact - 1)).toFixed(3)} %`
    const cells = [String(mine.unknowns), mine.milliseconds.toFixed(1), error(mine.impedance)]
    if (other !== undefined) {
      const ratio = (other.milliseconds / mine.milliseconds).toFixed(1)
      cells.push(other.milliseconds.toFixed(1), error(other.impedance), ratio)
    }
    console.log(row.name.padEnd(32) + cells.map((cell) => cell.padStart(9)).join(' '))
  }
}

compare()

describe('one section by the field solution', () => {
  for (const row of cases) {
    const section = sectionOfCase(row)
    if (section === null) continue
    bench(`section: ${row.name}`, () => {
      solve(section)
    })
  }
})
