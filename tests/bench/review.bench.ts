import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { buildSync } from 'esbuild'
import { bench, describe } from 'vitest'
import { parse } from 'yaml'
import { readBoard } from '../../src/board/readBoard.ts'
import { permittivityIn } from '../../src/impedance/permittivityIn.ts'
import { physicsKey } from '../../src/impedance/physicsKey.ts'
import { review } from '../../src/review.ts'
import { largeBoard } from './largeBoard.ts'

const source = largeBoard()
const { board, issues } = await readBoard(source)
if (board === null) throw new Error(issues.map((issue) => issue.message).join('\n'))

const { lines, routes, findings } = review(board)
const computed = lines.entries.flatMap(({ impedance }) => (impedance === null ? [] : [impedance]))
const sections = new Set(
  computed.map(({ section, frequency }) => physicsKey(section, permittivityIn(frequency))),
)
const loaded = lines.entries.filter((entry) => entry.loaded !== null)

/** In a process of its own, bundled as the product is: what a first review takes, and one with its sections remembered. */
function timesOfTwo(): string {
  const folder = mkdtempSync(join(tmpdir(), 'review-'))
  try {
    const outfile = join(folder, 'review.mjs')
    buildSync({
      entryPoints: [join(import.meta.dirname, 'reviewTimes.ts')],
      outfile,
      bundle: true,
      format: 'esm',
      platform: 'node',
      target: 'node20',
      banner: {
        js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url)",
      },
    })
    const [read = '', cold = '', remembered = ''] = execFileSync(process.execPath, [outfile], {
      encoding: 'utf8',
    })
      .trim()
      .split(' ')
    return `read ${read} s, first review ${cold} s, second with its sections remembered ${remembered} s`
  } finally {
    rmSync(folder, { recursive: true })
  }
}

console.log(
  `${computed.length} lines, ${sections.size} sections that differ physically, ${loaded.length} necks among vias: ${timesOfTwo()}`,
)

/** Aims: 5 s for a first review with field solutions, 3 s with its sections remembered, as they are in most turns here. */
describe(`a board of 2,500 balls and ${board.nets.length} nets: ${routes.length} routes, ${sections.size} sections, ${findings.length} findings`, () => {
  const once = { iterations: 5, warmupIterations: 1, time: 0, warmupTime: 0 }

  bench(
    'bare: parse the description and split its ball map, nothing else',
    () => {
      const map = new TextDecoder().decode(source.companion('large-board.csv') ?? undefined)
      parse(source.text)
      map.split('\n').map((line) => line.split(','))
    },
    once,
  )
  bench(
    'read the board',
    async () => {
      await readBoard(source)
    },
    once,
  )
  bench(
    'review the board',
    () => {
      review(board)
    },
    once,
  )
  bench(
    'read and review the board',
    async () => {
      const reading = await readBoard(source)
      if (reading.board === null) throw new Error('the large board does not read')
      review(reading.board)
    },
    once,
  )
})
