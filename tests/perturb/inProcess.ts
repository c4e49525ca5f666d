import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, resolve } from 'node:path'
import { compileFunction } from 'node:vm'
import { build as bundle, type Plugin } from 'esbuild'
import { findLiterals, instrument } from './findLiterals.ts'
import { recorder, type RecordedTest } from './recorder.ts'

const load = createRequire(import.meta.url)

/** A test file compiled with its sources, in which single literals of one source file can be changed. */
export interface Program {
  /** Files of the project that went in, relative to its root. */
  readonly inputs: readonly string[]
  /** Runs the tests with one literal multiplied by `factor` (null: none): title of the first that fails, or null. */
  readonly run: (literal: number | null, factor: number) => Promise<string | null>
}

type Perturb = (index: number, value: number) => number

/** More reads of literals than any test makes: a changed one has turned a loop endless. */
const MOST_READS = 2e8

/** Bundles a test file; the literals of `source` go through a call that can change them. */
export async function compileTest(root: string, testFile: string, source: string): Promise<Program> {
  const { outputFiles, metafile } = await bundle({
    absWorkingDir: root,
    entryPoints: [testFile],
    bundle: true,
    write: false,
    metafile: true,
    format: 'cjs',
    platform: 'node',
    packages: 'external',
    logLevel: 'silent',
    plugins: [instrumenting(resolve(root, source))],
  })
  const code = outputFiles[0]?.text ?? ''
  const program = compileFunction(code, ['require', 'module', 'perturb'], { filename: testFile }) as Start
  return {
    inputs: Object.keys(metafile.inputs),
    run: (literal, factor) => runOnce(program, literal, factor),
  }
}

type Start = (require: (name: string) => unknown, module: { exports: unknown }, perturb: Perturb) => void

async function runOnce(start: Start, literal: number | null, factor: number): Promise<string | null> {
  let reads = 0
  const tests: RecordedTest[] = []
  const vitest = recorder(tests)
  try {
    start(
      (name) => (name === 'vitest' ? vitest : (load(name) as unknown)),
      { exports: {} },
      (index, value) => {
        reads += 1
        if (reads > MOST_READS) throw new RangeError('endless loop')
        return index === literal ? value * factor : value
      },
    )
  } catch (error) {
    return `loading: ${String(error)}`
  }
  for (const { title, body } of tests) {
    try {
      await body()
    } catch {
      return title
    }
  }
  return tests.length === 0 ? 'no test found' : null
}

function instrumenting(source: string): Plugin {
  return {
    name: 'instrumenting',
    setup(build) {
      build.onLoad({ filter: /\.ts$/ }, ({ path }) => {
        const text = readFileSync(path, 'utf8').replaceAll(
          'import.meta.dirname',
          JSON.stringify(dirname(path)),
        )
        const contents = path === source ? instrument(text, findLiterals(text), 'perturb') : text
        return { contents, loader: 'ts' }
      })
    },
  }
}
