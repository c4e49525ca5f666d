import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { packageRoot } from '../../src/cli/packageRoot.ts'
import { run } from './testShell.ts'

const folder = mkdtempSync(join(tmpdir(), 'narrows-'))
afterAll(() => {
  rmSync(folder, { recursive: true })
})

const demo = join(packageRoot(), 'reference/demo')
const good = readFileSync(join(demo, 'reef-camera-hdi.yaml'), 'utf8')
copyFileSync(join(demo, 'reef-camera-hdi-u1.csv'), join(folder, 'reef-camera-hdi-u1.csv'))

function write(name: string, text: string | Uint8Array): string {
  const file = join(folder, name)
  writeFileSync(file, text)
  return file
}

describe('a description that will not do', () => {
  it('is answered with one line where there is no readable file', async () => {
    const missing = join(folder, 'missing.yaml')
    expect(await run(['escape', missing])).toEqual({
      exit: 2,
      out: '',
      err: `${missing}: there is no such file or folder\n`,
    })
    expect((await run(['escape', folder])).err).toBe(`${folder}: this is a folder, a file is wanted\n`)
  })

  it('is listed with every problem, each with file, line, place, what was found and what is allowed', async () => {
    const text = good
      .replace('structure: pair', 'structure: twin')
      .replace('thickness: 60 um', 'thickness: 60 ps')
    const file = write('twice.yaml', text)
    const { exit, out, err } = await run(['escape', file])
    expect([exit, out]).toEqual([2, ''])
    const line = (words: string): number => text.split('\n').findIndex((each) => each.includes(words)) + 1
    const twin = err.split('\n').find((each) => each.includes('twin')) ?? ''
    expect(twin).toContain(`${file}:${line('structure: twin')}:`)
    expect(twin).toContain('classes[0].structure')
    expect(twin).toContain('single or pair')
    const wrongUnit = err.split('\n').find((each) => each.includes('60 ps')) ?? ''
    expect(wrongUnit).toContain(`${file}:${line('60 ps')}:`)
    expect(wrongUnit).toContain('which is a time')
    expect(wrongUnit).toContain('a length such as 0.1 mm')
  })

  it('is listed together with what is wrong on the command line', async () => {
    const file = write('bad.yaml', good.replace('structure: pair', 'structure: twin'))
    const { exit, err } = await run(['line', file, '--layer', 'L1', '--width', '80'])
    expect(exit).toBe(2)
    expect(err).toContain('--width: found 80 without a unit')
    expect(err).toContain('"twin"')
  })

  it.each([
    ['empty', ''],
    ['not YAML', 'a: [b\nc: }'],
    ['no text at all', new Uint8Array([0xff, 0xfe, 0x00, 0x80])],
    ['a list', '- 1\n- 2\n'],
  ])('never gives a stack trace: %s', async (name, text) => {
    const { exit, out, err } = await run(['escape', write(`${name}.yaml`, text)])
    expect([exit, out]).toEqual([2, ''])
    expect(err).toContain(`${name}.yaml`)
    expect(err).not.toMatch(/\n\s+at /)
  })

  it('names the ball map that is not beside it', async () => {
    const file = write('lost.yaml', good.replace('reef-camera-hdi-u1.csv', 'lost.csv'))
    const { exit, err } = await run(['escape', file])
    expect(exit).toBe(2)
    expect(err).toContain('lost.csv')
  })
})
