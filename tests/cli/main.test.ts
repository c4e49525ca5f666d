import { execFile, spawn, type ChildProcess } from 'node:child_process'
import { once } from 'node:events'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { text } from 'node:stream/consumers'
import { promisify } from 'node:util'
import { beforeAll, describe, expect, it } from 'vitest'
import { packageRoot } from '../../src/cli/packageRoot.ts'
import { run } from './testShell.ts'

const root = packageRoot()
const SOURCE = ['--import', 'tsx', join(root, 'src/cli/main.ts')]
const BUNDLE = [join(root, 'build/cli.js')]
const BOARD = 'reference/demo/reef-camera-hdi.yaml'
const PATIENCE = 60_000

async function start(program: readonly string[], args: readonly string[], input = '') {
  const child = spawn(process.execPath, [...program, ...args], { cwd: root })
  child.stdin.end(input)
  const [out, err, exit] = await Promise.all([text(child.stdout), text(child.stderr), exitOf(child)])
  return { exit, out, err }
}

async function exitOf(child: ChildProcess): Promise<number> {
  const [code] = (await once(child, 'exit')) as [number]
  return code
}

async function here(args: readonly string[], input = '') {
  const before = process.cwd()
  process.chdir(root)
  try {
    return await run(args, input)
  } finally {
    process.chdir(before)
  }
}

describe('the command as a process', () => {
  it('opens with a line that lets a shell start it', () => {
    expect(readFileSync(join(root, 'src/cli/main.ts'), 'utf8').split('\n')[0]).toBe('#!/usr/bin/env node')
  })

  it(
    'reads standard input, and prints and ends as it does in this process',
    async () => {
      const query = '{"id": 7, "layer": "L1", "width": "80 um"}\n'
      const args = ['line', BOARD, '--queries', '-']
      expect(await start(SOURCE, args, query)).toEqual(await here(args, query))
    },
    PATIENCE,
  )

  it(
    'ends with one line when its reader goes away',
    async () => {
      const child = spawn(process.execPath, [...SOURCE, 'review', BOARD, '--json', '-'], { cwd: root })
      child.stdout.destroy()
      const [err, exit] = await Promise.all([text(child.stderr), exitOf(child)])
      expect([exit, err]).toEqual([2, 'narrows: the reader of standard output stopped reading\n'])
    },
    PATIENCE,
  )
})

describe('the bundle', () => {
  beforeAll(async () => {
    await promisify(execFile)(process.execPath, [join(root, '.config/bundle.js')])
  }, PATIENCE)

  it.each([
    [['line', BOARD, '--layer', 'L1', '--width', '0.2 mm / 2']],
    [['escape', BOARD, '--json']],
    [['review', BOARD, '--html', '-']],
    [['schema', 'review']],
    [['line', BOARD, '--layer', 'L9', '--width', '80']],
    [['--version']],
  ])(
    'answers %j as the sources do',
    async (args) => {
      expect(await start(BUNDLE, args)).toEqual(await here(args))
    },
    PATIENCE,
  )

  it(
    'serves pages until a signal ends it',
    async () => {
      const child = spawn(process.execPath, [...BUNDLE, 'serve', 'reference/demo', '--port', '0'], {
        cwd: root,
      })
      const [chunk] = (await once(child.stdout, 'data')) as [Buffer]
      const url = /http:\S+/.exec(chunk.toString())?.[0] ?? ''
      expect((await fetch(url)).status).toBe(200)
      child.kill('SIGTERM')
      expect(await exitOf(child)).toBe(0)
    },
    PATIENCE,
  )
})
