/**
 * Changes every coefficient of the closed forms by 1 %, one at a time, and sees to it that a test fails:
 *
 *     npx tsx tests/perturb/perturbCoefficients.ts [part of a file name …]
 *
 * First the test of the same name is run; what it lets pass goes through every other test that uses the file. Ends
 * with exit code 1 when a change survives, or when an exemption no longer matches anything.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { EXEMPTIONS, type Exemption } from './exemptions.ts'
import { findLiterals, SKIP_REASONS, type Literal } from './findLiterals.ts'
import { compileTest, type Program } from './inProcess.ts'

const ROOT = resolve(import.meta.dirname, '../..')
const SOURCES = 'src/impedance/closedForm'
const TEST_FOLDERS = ['tests/impedance/closedForm', 'tests/impedance/formulas', 'tests/impedance']
const FACTOR = 1.01

interface Outcome {
  readonly file: string
  readonly changed: number
  readonly skipped: readonly Literal[]
  readonly exempt: readonly Exemption[]
  readonly survivors: readonly Literal[]
  /** Killed only by a test of another file. */
  readonly elsewhere: number
  readonly fault: string | null
}

async function perturbFile(file: string): Promise<Outcome> {
  const source = join(SOURCES, file)
  const literals = findLiterals(readFileSync(join(ROOT, source), 'utf8'))
  const skipped = literals.filter((literal) => literal.skipped !== null)
  const indices = literals.flatMap((literal, index) => (literal.skipped === null ? [index] : []))
  const outcome = {
    file,
    changed: indices.length,
    skipped,
    exempt: [],
    survivors: [],
    elsewhere: 0,
    fault: null,
  }
  if (indices.length === 0) return outcome
  const mirror = join(TEST_FOLDERS[0] ?? '', file.replace(/\.ts$/, '.test.ts'))
  let passed = indices
  if (existsSync(join(ROOT, mirror))) {
    const program = await compileTest(ROOT, mirror, source)
    const unchanged = await program.run(null, 1)
    if (unchanged !== null) return { ...outcome, fault: `fails without any change: ${unchanged}` }
    passed = await survivorsOf(program, indices)
  }
  const left = await survivorsElsewhere(passed, source, mirror)
  const exempt = new Set<Exemption>()
  const survivors = left.flatMap((index) => {
    const literal = literals[index]
    const exemption = literal === undefined ? undefined : exemptionOf(file, literal)
    if (exemption !== undefined) exempt.add(exemption)
    return literal === undefined || exemption !== undefined ? [] : [literal]
  })
  return { ...outcome, exempt: [...exempt], survivors, elsewhere: passed.length - left.length }
}

async function survivorsOf(program: Program, indices: readonly number[]): Promise<number[]> {
  const survivors: number[] = []
  for (const index of indices) if ((await program.run(index, FACTOR)) === null) survivors.push(index)
  return survivors
}

async function survivorsElsewhere(
  indices: readonly number[],
  source: string,
  mirror: string,
): Promise<readonly number[]> {
  let left = indices
  for (const test of testFiles()) {
    if (left.length === 0 || test === mirror) continue
    const program = await compileTest(ROOT, test, source)
    if (program.inputs.includes(source) && (await program.run(null, 1)) === null) {
      left = await survivorsOf(program, left)
    }
  }
  return left
}

function testFiles(): string[] {
  return TEST_FOLDERS.flatMap((folder) =>
    readdirSync(join(ROOT, folder))
      .filter((name) => name.endsWith('.test.ts'))
      .map((name) => join(folder, name)),
  )
}

function exemptionOf(file: string, literal: Literal): Exemption | undefined {
  return EXEMPTIONS.find(
    (entry) => entry.file === file && entry.literal === literal.text && literal.context.includes(entry.line),
  )
}

function report(outcomes: readonly Outcome[], all: boolean): boolean {
  const sum = (count: (outcome: Outcome) => number): number =>
    outcomes.reduce((total, each) => total + count(each), 0)
  for (const { file, survivors, fault } of outcomes) {
    if (fault !== null) console.log(`${file}: ${fault}`)
    for (const { line, text, context } of survivors)
      console.log(`${file}:${line}: ${text} survives in: ${context}`)
  }
  for (const [reason, why] of Object.entries(SKIP_REASONS)) {
    const count = sum(({ skipped }) => skipped.filter((literal) => literal.skipped === reason).length)
    console.log(`skipped ${count} (${reason}): ${why}`)
  }
  const used = new Set(outcomes.flatMap(({ exempt }) => exempt))
  for (const { file, line, literal, reason } of used)
    console.log(`exempt ${file}, ${literal} in "${line}": ${reason}`)
  const stale = all ? EXEMPTIONS.filter((entry) => !used.has(entry)) : []
  for (const { file, line } of stale) console.log(`exemption without a survivor: ${file}, "${line}"`)
  const survivors = sum((outcome) => outcome.survivors.length)
  const faults = outcomes.filter(({ fault }) => fault !== null).length
  console.log(
    `${sum(({ changed }) => changed)} coefficients of ${outcomes.length} files changed by 1 %: ${survivors} survive, ` +
      `${used.size} exemptions, ${sum(({ elsewhere }) => elsewhere)} caught only by another file's test, ` +
      `${faults} files not tested`,
  )
  return survivors === 0 && faults === 0 && stale.length === 0
}

const wanted = process.argv.slice(2)
const files = readdirSync(join(ROOT, SOURCES))
  .filter(
    (name) => name.endsWith('.ts') && (wanted.length === 0 || wanted.some((part) => name.includes(part))),
  )
  .sort()
const outcomes: Outcome[] = []
for (const file of files) outcomes.push(await perturbFile(file))
process.exitCode = report(outcomes, wanted.length === 0) ? 0 : 1
