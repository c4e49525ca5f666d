import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import type { Board } from '../../src/board/board.ts'
import { boardOf, descriptionText, DESCRIPTIONS, readDescription, REFERENCE } from './referenceBoards.ts'

const COUNTED = ['package', 'ball', 'net', 'pair', 'copper layer'] as const

/** Figures of the comment "What is in it: 2 packages, 504 balls, …". */
function statedCounts(text: string): Record<string, number> {
  const [, list = ''] = /What is in it:([^.]*?)(?:copper layers?)/s.exec(text.replaceAll(/\n#/g, ' ')) ?? []
  const count = (word: string, place: string): number =>
    Number(new RegExp(`(\\d+) ${word}s?\\b`).exec(place)?.[1] ?? NaN)
  return Object.fromEntries(COUNTED.map((word) => [word, count(word, `${list}copper layers`)]))
}

function countsOf(board: Board): Record<string, number> {
  const signals = board.packages.flatMap((pack) => pack.balls.filter((ball) => ball.use === 'signal'))
  const names = new Set(signals.flatMap((ball) => ball.net ?? []))
  const paired = board.nets.filter((net) => names.has(net.name) && net.partner !== null)
  return {
    package: board.packages.length,
    ball: board.packages.reduce((sum, pack) => sum + pack.balls.length, 0),
    net: names.size,
    pair: paired.length / 2,
    'copper layer': board.stackup.copper.length,
  }
}

describe.each(DESCRIPTIONS)('%s', (path) => {
  it('reads without an error or a warning', async () => {
    const { issues } = await readDescription(path)
    expect(issues.map((issue) => `${issue.file}:${issue.line ?? '?'} ${issue.message}`)).toEqual([])
  })

  it('holds what its first comment says', async () => {
    expect(countsOf(await boardOf(path))).toEqual(statedCounts(descriptionText(path)))
  })

  it('puts every signal net into a class of its own choice', async () => {
    const board = await boardOf(path)
    const classes = new Set(board.classes.map((netClass) => netClass.name))
    expect(board.nets.filter((net) => !classes.has(net.class)).map((net) => net.name)).toEqual([])
    const used = new Set(board.nets.map((net) => net.class))
    expect([...classes].filter((name) => !used.has(name))).toEqual([])
  })

  it('has as much dielectric and copper as the stated thickness, within 1 %', async () => {
    const { stackup } = await boardOf(path)
    expect(Math.abs(stackup.computedThickness / (stackup.statedThickness ?? NaN) - 1)).toBeLessThan(0.01)
  })

  it('reads the same twice', async () => {
    expect(await boardOf(path)).toEqual(await boardOf(path))
  })
})

describe('the open ball maps', () => {
  const digest = (name: string): string =>
    createHash('sha256')
      .update(readFileSync(join(REFERENCE, 'boards/ball-maps', name)))
      .digest('hex')

  it('leave the 400-ball map as it was published', () => {
    // f4pga/prjxray-db @ 0a0added, zynq7/xc7z020clg400-1/package_pins.csv.
    expect(digest('xc7z020clg400-1.csv')).toBe(
      '52eac7be98da1e8bda491fa07699ae84c0e7eca1e09cde8b308be1df2ab5590f',
    )
  })

  it.each([
    // Counts of the maps themselves: prjtrellis-db @ 4dda149b and prjxray-db @ 0a0added.
    { path: 'boards/csfbga285-six-layer.yaml', balls: 285, listed: 118 },
    { path: 'boards/clg400-six-layer.yaml', balls: 400, listed: 257 },
  ])(
    'say of $listed balls of $path that they are signals, and the rest is assumed',
    async ({ path, balls, listed }) => {
      const [pack] = (await boardOf(path)).packages
      const all = pack?.balls ?? []
      expect(all).toHaveLength(balls)
      expect(all.filter((ball) => ball.use === 'signal')).toHaveLength(listed)
      expect(all.filter((ball) => ball.use !== 'signal' && ball.useAssumed)).toHaveLength(balls - listed)
    },
  )
})
