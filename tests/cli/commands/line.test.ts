import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { lineOutput, type LineOutput } from '../../../src/cli/json/lineOutput.ts'
import { packageRoot } from '../../../src/cli/packageRoot.ts'
import { formatOhms } from '../../../src/units/format.ts'
import { run } from '../testShell.ts'

const BOARD = join(packageRoot(), 'reference/demo/hydrophone-recorder.yaml')
const folder = mkdtempSync(join(tmpdir(), 'narrows-'))
afterAll(() => {
  rmSync(folder, { recursive: true })
})

async function lineOf(...options: string[]): Promise<LineOutput> {
  const { exit, out, err } = await run(['line', BOARD, ...options, '--json'])
  expect([exit, err]).toEqual([0, ''])
  return lineOutput.parse(JSON.parse(out))
}

describe('narrows line', () => {
  it('answers for a single trace, an edge pair and a coplanar trace in its published form', async () => {
    const single = await lineOf('--layer', 'L1', '--width', '80 um')
    expect(single.line.section).toMatchObject({
      arrangement: 'single',
      structure: 'microstrip',
      layerName: 'L1',
    })
    const pair = await lineOf('--layer', 'L3', '--width', '80 um', '--gap', '100 um')
    expect(pair.line.section).toMatchObject({ arrangement: 'edge pair', structure: 'stripline' })
    expect(pair.line.common).not.toBeNull()
    const coplanar = await lineOf('--layer', '1', '--width', '80 um', '--coplanar-gap', '150 um')
    expect(coplanar.request).toMatchObject({ layer: 1, coplanarGap: 150e-6 })
    expect(coplanar.line.impedance).toBeLessThan(single.line.impedance)
  })

  it('gives delay, capacitance and inductance that belong together', async () => {
    // Telegrapher's equations of a lossless line: Z = sqrt(L/C), delay = sqrt(LC).
    const { line } = await lineOf('--layer', 'L3', '--width', '80 um')
    expect(Math.sqrt(line.inductance / line.capacitance) / line.impedance).toBeCloseTo(1, 12)
    expect(Math.sqrt(line.inductance * line.capacitance) / line.delay).toBeCloseTo(1, 12)
  })

  it('names every method that applies, the chosen one first, inside the page', async () => {
    const { line } = await lineOf('--layer', 'L1', '--width', '80 um')
    const { out } = await run(['line', BOARD, '--layer', 'L1', '--width', '80 um'])
    const table = out.slice(out.indexOf('Every method that applies'), out.indexOf('Assumed'))
    const figures = [...table.matchAll(/[\d.]+ ohm/g)].map(([figure]) => figure)
    const modes = [line.chosen, ...line.others].map((estimate) => estimate.modes)
    expect(figures).toEqual(
      modes.map((mode) => (mode.kind === 'single' ? formatOhms(mode.line.impedance) : '')),
    )
    expect(out.startsWith(`Impedance ${formatOhms(line.impedance)} ± `)).toBe(true)
    expect(Math.max(...out.split('\n').map((each) => each.length))).toBeLessThanOrEqual(100)
  })

  it('takes arithmetic and either unit for the same line', async () => {
    const plain = await lineOf('--layer', 'L3', '--width', '0.1 mm')
    const sum = await lineOf('--layer', '3', '--width', '2 * (75 um - 25 um)')
    expect(sum.line).toEqual(plain.line)
  })

  it('lists all that is wrong with the question at once', async () => {
    const { exit, out, err } = await run(['line', BOARD, '--layer', 'L99', '--width', '80', '--gap', '-1 mm'])
    expect([exit, out]).toEqual([2, ''])
    expect(err).toContain('--layer: found "L99"; allowed: a copper layer of this board: L1, L2')
    expect(err).toContain('--width: found 80 without a unit')
    expect(err).toContain('--gap: found -1 mm; allowed: a value above 0')
    expect((await run(['line', BOARD])).err).toMatch(/--layer: found nothing.*\n--width: found nothing/)
  })

  it('says what the stackup cannot carry', async () => {
    const plane = await run(['line', BOARD, '--layer', 'L2', '--width', '80 um'])
    expect([plane.exit, plane.out]).toEqual([2, ''])
    expect(plane.err).toContain('layer L2 is a plane')
    const sliver = await run(['line', BOARD, '--layer', 'L3', '--width', '1 um'])
    expect(sliver.exit).toBe(2)
    expect(sliver.err).toContain('etch away')
  })
})

describe('narrows line --queries', () => {
  const queries = [
    { id: 1, layer: 'L1', width: '80 um' },
    { id: 'pair', layer: 'L3', width: '80 um', gap: '100 um' },
    { layer: 3, width: '0.1 mm' },
  ]
  const text = queries.map((query) => JSON.stringify(query)).join('\n')

  it('answers each line in order, as asking alone would', async () => {
    const { exit, out, err } = await run(['line', BOARD, '--queries', '-'], text)
    expect([exit, err]).toEqual([0, ''])
    const answers = out
      .trimEnd()
      .split('\n')
      .map((line) => lineOutput.parse(JSON.parse(line)))
    expect(answers.map(({ id }) => id)).toEqual([1, 'pair', null])
    const alone = [
      await lineOf('--layer', 'L1', '--width', '80 um'),
      await lineOf('--layer', 'L3', '--width', '80 um', '--gap', '100 um'),
      await lineOf('--layer', '3', '--width', '0.1 mm'),
    ]
    expect(answers.map(({ line }) => line)).toEqual(alone.map(({ line }) => line))
  })

  it('writes nothing when one query is wrong, and says which', async () => {
    const file = join(folder, 'queries.jsonl')
    writeFileSync(
      file,
      `${text}\n{"layer": "L2", "width": "80 um"}\n{"layer": "L3", "width": "80"}\n{"layer": "L77", "width": "1 mm"}\n`,
    )
    const { exit, out, err } = await run(['line', BOARD, '--queries', file])
    expect([exit, out]).toEqual([2, ''])
    expect(err).toContain(`${file}:4: layer L2 is a plane`)
    expect(err).toContain(`${file}:5: width: found 80 without a unit`)
    expect(err).toContain(`${file}:6: layer: found "L77"`)
  })

  it('refuses options that belong in the queries, and a file that is not there', async () => {
    const { exit, err } = await run([
      'line',
      BOARD,
      '--queries',
      join(folder, 'none.jsonl'),
      '--width',
      '80 um',
    ])
    expect(exit).toBe(2)
    expect(err).toContain('--width has no place beside --queries')
    expect(err).toContain('none.jsonl: there is no such file or folder')
  })
})
