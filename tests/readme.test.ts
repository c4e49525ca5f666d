import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { describe, expect, it } from 'vitest'

const ROOT = resolve(import.meta.dirname, '..')
const README = readFileSync(resolve(ROOT, 'README.md'), 'utf8')

describe('README.md', () => {
  it('shows a command and what it really prints', () => {
    const [, command = '', printed = ''] =
      /```sh\nnode build\/cli\.js (line .*)\n```\n\n```\n([^`]*)\n```/.exec(README) ?? []
    const output = execFileSync('node', ['--import', 'tsx', 'src/cli/main.ts', ...command.split(' ')], {
      cwd: ROOT,
      encoding: 'utf8',
    })
    expect(printed).not.toBe('')
    expect(output).toContain(printed)
  }, 30_000)

  it('names files and folders that are there', () => {
    const links = [...README.matchAll(/\]\(([^)#:]+)\)/g)].map((match) => match[1] ?? '')
    expect(links.length).toBeGreaterThan(3)
    for (const link of links) expect(() => execFileSync('test', ['-e', resolve(ROOT, link)])).not.toThrow()
  })
})
