import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
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

  it('names uses whose commands all run', () => {
    const commands = [...README.matchAll(/\| `narrows ([^`]+)` +\|/g)].map((match) => match[1] ?? '')
    expect(commands).toHaveLength(3)
    const folder = mkdtempSync(join(tmpdir(), 'readme-'))
    for (const command of commands) {
      const words = [...command.matchAll(/"([^"]+)"|\S+/g)].map(([word, quoted]) => quoted ?? word)
      const placed = words.map((word) => (word === 'report.html' ? join(folder, word) : word))
      const ran = spawnSync('node', ['--import', 'tsx', 'src/cli/main.ts', ...placed], {
        cwd: ROOT,
        encoding: 'utf8',
      })
      // 1 tells of findings; 2 of bad input, and more than that of faults.
      expect([command, ran.status, ran.stderr]).toEqual([command, expect.toBeOneOf([0, 1]), ''])
      expect(ran.stdout.length).toBeGreaterThan(100)
    }
    expect(readFileSync(join(folder, 'report.html'), 'utf8')).toContain('The answer first')
    rmSync(folder, { recursive: true })
  }, 90_000)

  it('names files and folders that are there', () => {
    const links = [...README.matchAll(/\]\(([^)#:]+)\)/g)].map((match) => match[1] ?? '')
    expect(links.length).toBeGreaterThan(3)
    for (const link of links) expect(() => execFileSync('test', ['-e', resolve(ROOT, link)])).not.toThrow()
  })
})
