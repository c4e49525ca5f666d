import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { dielectricOutput, type DielectricOutput } from '../../../src/cli/json/dielectricOutput.ts'
import { packageRoot } from '../../../src/cli/packageRoot.ts'
import { formatLength } from '../../../src/units/format.ts'
import { run } from '../testShell.ts'

const BOARD = join(packageRoot(), 'reference/demo/hydrophone-recorder.yaml')

async function choicesOf(...options: string[]): Promise<DielectricOutput['choices']> {
  const { out, err } = await run(['dielectric', BOARD, ...options, '--json'])
  expect(err).toBe('')
  return dielectricOutput.parse(JSON.parse(out)).choices
}

const TRACE = ['--layer', 'L1', '--width', '100 um', '--target', '60 ohm']

describe('narrows dielectric', () => {
  it('brings the trace to its target within its own curve', async () => {
    const [choice] = await choicesOf(...TRACE)
    // Met within half of the least error band.
    expect(Math.abs(Number(choice?.reached?.impedance) / 60 - 1)).toBeLessThan(5e-4)
    const thickness = choice?.thickness ?? 0
    const curve = choice?.curve ?? []
    const below = curve.filter((point) => point.thickness <= thickness).at(-1)
    const above = curve.find((point) => point.thickness > thickness)
    expect(below?.impedance).toBeLessThanOrEqual(60)
    expect(above?.impedance).toBeGreaterThan(60)
  })

  it('prints the thickness of its JSON first, inside the page', async () => {
    const [choice] = await choicesOf(...TRACE)
    const { exit, out } = await run(['dielectric', BOARD, ...TRACE])
    expect(exit).toBe(0)
    expect(out.split('\n')[1]).toContain(
      `${formatLength(choice?.thickness ?? 0, 'mm')} pressed brings it there`,
    )
    expect(Math.max(...out.split('\n').map((each) => each.length))).toBeLessThanOrEqual(100)
  })

  it('widens the window with the tolerance', async () => {
    const [narrow] = await choicesOf(...TRACE, '--tolerance', '5 %')
    const [wide] = await choicesOf(...TRACE)
    expect(wide?.window?.min).toBeLessThan(narrow?.window?.min ?? 0)
    expect(wide?.window?.max).toBeGreaterThan(narrow?.window?.max ?? 1)
  })

  it('ends with 1 and says why where no thickness will do', async () => {
    const { exit, out } = await run([
      'dielectric',
      BOARD,
      '--layer',
      'L1',
      '--width',
      '100 um',
      '--target',
      '500 ohm',
    ])
    expect(exit).toBe(1)
    expect(out).toContain('no thickness of')
    expect(out).toContain('even the thickest dielectric')
  })

  it('asks for a class on every layer its routes use, each trace once', async () => {
    const choices = await choicesOf('--class', 'slow')
    const keys = choices.map(({ layer, stretch, width }) => `${layer} ${stretch} ${width.toPrecision(6)}`)
    expect(new Set(keys).size).toBe(keys.length)
    expect(choices.every(({ netClass }) => netClass === 'slow')).toBe(true)
    const one = await choicesOf('--class', 'slow', '--layer', 'L1')
    expect(one).toEqual(choices.filter(({ layer }) => layer === 1))
    const { out } = await run(['dielectric', BOARD, '--class', 'slow'])
    expect(Math.max(...out.split('\n').map((each) => each.length))).toBeLessThanOrEqual(100)
  })

  it('lists all that is wrong with the question', async () => {
    const { exit, out, err } = await run(['dielectric', BOARD, '--layer', 'L77', '--target', '50'])
    expect([exit, out]).toEqual([2, ''])
    for (const words of [
      '--layer: found "L77"',
      '--width: found nothing',
      '--target: found 50 without',
      '--class NAME',
    ]) {
      expect(err).toContain(words)
    }
    const both = await run(['dielectric', BOARD, '--class', 'slwo', '--width', '80 um'])
    expect(both.exit).toBe(2)
    expect(both.err).toContain('--width has no place beside --class')
    expect(both.err).toContain('--class: found "slwo"; allowed: a net class of this board: ')
  })
})
