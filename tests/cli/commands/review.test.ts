import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { reviewOutput, type ReviewOutput } from '../../../src/cli/json/reviewOutput.ts'
import { packageRoot } from '../../../src/cli/packageRoot.ts'
import { run, type Recorded } from '../testShell.ts'

const THROUGH = join(packageRoot(), 'reference/demo/hydrophone-recorder.yaml')
const BLIND = join(packageRoot(), 'reference/demo/reef-camera-hdi.yaml')
const folder = mkdtempSync(join(tmpdir(), 'narrows-'))
const html = join(folder, 'report.html')
const json = join(folder, 'review.json')
const PATIENCE = 60_000

let printed: Recorded
let written: ReviewOutput

beforeAll(async () => {
  printed = await run(['review', THROUGH, '--html', html, '--json', json])
  written = reviewOutput.parse(JSON.parse(readFileSync(json, 'utf8')))
}, PATIENCE)

afterAll(() => {
  rmSync(folder, { recursive: true })
})

describe('narrows review', () => {
  it('writes JSON of its published form, and counts its findings', () => {
    const { errors, warnings, notes } = written.summary
    expect(errors + warnings + notes).toBe(written.findings.length)
    expect(written.board.file).toBe(THROUGH)
    expect(written.signals.length).toBeGreaterThan(0)
    expect(written.assumptions.length).toBeGreaterThan(0)
  })

  it('writes the report, and says what it wrote', () => {
    expect(readFileSync(html, 'utf8')).toMatch(/^<!doctype html>/i)
    expect(printed.out.replaceAll(/\s/g, '')).toContain(`Written:${html},${json}`)
    expect(printed.err).toBe('')
  })

  it('prints every finding, gravest first, inside the page', () => {
    const lines = [...printed.out.matchAll(/^(error|warning|note) {2}\S+$/gm)].map(([line]) => line)
    const expected = written.findings.map(({ severity, code }) => `${severity}  ${code}`)
    expect([...lines].sort()).toEqual([...expected].sort())
    const ranks = lines.map((line) => ['error', 'warning', 'note'].indexOf(line.split(' ')[0] ?? ''))
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b))
    const text = printed.out.split('\nWritten:')[0] ?? ''
    expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100)
  })

  it(
    'ends with 1 where it finds errors, and with 0 where it is told never to',
    async () => {
      expect(printed.exit).toBe(written.summary.errors > 0 ? 1 : 0)
      expect((await run(['review', BLIND, '--fail-on', 'never'])).exit).toBe(0)
    },
    PATIENCE,
  )

  it(
    'sends JSON or the report to standard output alone',
    async () => {
      const { out } = await run(['review', BLIND, '--json', '-'])
      expect(reviewOutput.parse(JSON.parse(out)).board.file).toBe(BLIND)
      const report = await run(['review', BLIND, '--html', '-'])
      expect(report.out).toMatch(/^<!doctype html>/i)
      expect(report.out.trimEnd()).toMatch(/<\/html>$/)
    },
    PATIENCE,
  )

  it(
    'writes nothing and says why where an output cannot be written',
    async () => {
      const inside = join(folder, 'no-folder', 'report.html')
      const missing = await run(['review', BLIND, '--html', inside])
      expect(missing).toEqual({
        exit: 2,
        out: '',
        err: `cannot write ${inside}: its folder does not exist\n`,
      })
      const occupied = join(folder, 'occupied')
      mkdirSync(occupied)
      const { exit, err } = await run([
        'review',
        BLIND,
        '--json',
        join(folder, 'never.json'),
        '--html',
        occupied,
      ])
      expect([exit, err]).toEqual([2, `cannot write ${occupied}: this is a folder, a file is wanted\n`])
      expect(readdirSync(folder)).not.toContain('never.json')
    },
    PATIENCE,
  )

  it('never writes over the description, nor two outputs to one place', async () => {
    expect((await run(['review', BLIND, '--json', BLIND])).err).toContain('it is not written over')
    const both = await run(['review', BLIND, '--json', '-', '--html', '-'])
    expect(both.err).toContain('--html and --json cannot both go to -')
  })
})
