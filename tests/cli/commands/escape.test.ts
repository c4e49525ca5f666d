import { copyFileSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { escapeOutput } from '../../../src/cli/json/escapeOutput.ts'
import { packageRoot } from '../../../src/cli/packageRoot.ts'
import { run } from '../testShell.ts'

const THROUGH = join(packageRoot(), 'reference/demo/hydrophone-recorder.yaml')
const BLIND = join(packageRoot(), 'reference/demo/reef-camera-hdi.yaml')

const folder = mkdtempSync(join(tmpdir(), 'narrows-'))

afterAll(() => {
  rmSync(folder, { recursive: true })
})

/** The blind board with another claim, or none, beside a copy of its ball map. */
function claiming(layers: number | null): string {
  const claim = `  - {package: U1, technology: blind, signal_layers: ${layers ?? 0}, source: test}\n`
  const text = readFileSync(BLIND, 'utf8').replace(
    /^claims:\n( .*\n)+/m,
    layers === null ? '' : `claims:\n${claim}`,
  )
  const file = join(folder, `claims-${layers ?? 'nothing'}.yaml`)
  writeFileSync(file, text)
  copyFileSync(BLIND.replace('.yaml', '-u1.csv'), join(folder, 'reef-camera-hdi-u1.csv'))
  return file
}

describe('narrows escape', () => {
  it('prints output of its published form, and ends with 0 where every ball is out and every claim holds', async () => {
    const file = claiming(null)
    const { exit, out, err } = await run(['escape', file, '--json'])
    expect([exit, err]).toEqual([0, ''])
    const output = escapeOutput.parse(JSON.parse(out))
    expect(output.board.file).toBe(file)
    expect(output.escapes.length).toBeGreaterThan(0)
  })

  it('ends with 1 where a claim is refuted, and says so', async () => {
    const { exit, out } = await run(['escape', claiming(1)])
    expect(exit).toBe(1)
    expect(out).toContain('claim refuted')
  })

  it('prints each channel, rule and plan inside the page', async () => {
    const { out } = await run(['escape', THROUGH])
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100)
    for (const words of [
      'Plan by through vias',
      'Signal layers needed, by rule',
      'between centres of lands',
      'left over',
    ]) {
      expect(out).toContain(words)
    }
  })

  it('says the same number of layers in text and JSON', async () => {
    const json = escapeOutput.parse(JSON.parse((await run(['escape', THROUGH, '--json'])).out))
    const { out } = await run(['escape', THROUGH])
    for (const escape of json.escapes) {
      const plan = escape.plans.find(({ technology }) => technology === escape.chosen)
      const used = plan?.layers.filter(({ escaped }) => escaped > 0).length ?? -1
      expect(out).toContain(`${escape.package}: ${used} signal layers by ${escape.chosen} vias take out`)
    }
  })

  it('writes a map for each package and layer on which nets leave, into a folder that it makes', async () => {
    const maps = join(folder, 'new', 'maps')
    const { out, err } = await run(['escape', BLIND, '--maps', maps])
    expect(err).toBe('')
    const json = escapeOutput.parse(JSON.parse((await run(['escape', BLIND, '--json'])).out))
    const expected = json.escapes.flatMap(({ package: name, plans, chosen }) => {
      const plan = plans.find(({ technology }) => technology === chosen)
      const layers = [...new Set(plan?.routes.map(({ exitLayer }) => exitLayer))]
      return layers.map((layer) => `map-${name.toLowerCase()}-${layer}.svg`)
    })
    expect(new Set(readdirSync(maps))).toEqual(new Set(expected))
    for (const name of expected) {
      expect(readFileSync(join(maps, name), 'utf8')).toMatch(/^<svg xmlns="http:\/\/www.w3.org\/2000\/svg"/)
      expect(out.replaceAll(/\s/g, '')).toContain(join(maps, name))
    }
  })

  it('says so where a file is in the way of the folder', async () => {
    const { exit, err } = await run(['escape', BLIND, '--maps', BLIND])
    expect(exit).toBe(2)
    expect(err).toContain('a file of that name is in the way')
  })
})
