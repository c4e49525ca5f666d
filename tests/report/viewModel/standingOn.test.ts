import { readFileSync } from 'node:fs'
import { dirname, join, resolve } from 'node:path'
import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { readBoard } from '../../../src/board/readBoard.ts'
import { escapesOf } from '../../../src/escapes.ts'
import { distanceToPath } from '../../../src/routes/pathDistance.ts'
import { standingOn } from '../../../src/report/viewModel/standingOn.ts'

const REFERENCE = resolve(import.meta.dirname, '../../../reference')
const BOARDS = ['demo/hydrophone-recorder.yaml', 'demo/reef-camera-hdi.yaml', 'boards/clg400-six-layer.yaml']

async function boardIn(file: string): Promise<Board> {
  const path = join(REFERENCE, file)
  const companion = (name: string): Uint8Array => readFileSync(join(dirname(path), name))
  const { board } = await readBoard({ file, text: readFileSync(path), companion })
  if (board === null) throw new Error(`${file} cannot be read`)
  return board
}

describe.each(BOARDS)('what stands on the layers of %s', (file) => {
  it('is as many vias as the plan counts there', async () => {
    const board = await boardIn(file)
    for (const { package: name, plans } of escapesOf(board)) {
      const pack = board.packages.find((each) => each.name === name)
      for (const plan of pack === undefined ? [] : plans) {
        const inner = plan.layers.filter(
          ({ layer }) => layer !== (pack?.placement.side === 'top' ? 1 : board.stackup.copper.length),
        )
        const drawn = inner.map(({ layer }) => {
          const { starts, obstacles } = standingOn(layer, pack ?? fail(), plan, board)
          return starts.length + obstacles.length
        })
        expect([name, plan.technology, drawn]).toEqual([
          name,
          plan.technology,
          inner.map((layer) => layer.obstacles),
        ])
      }
    }
  })

  it('keeps every planned route clear of it', async () => {
    const board = await boardIn(file)
    for (const { package: name, plans, chosen } of escapesOf(board)) {
      const pack = board.packages.find((each) => each.name === name)
      const plan = plans.find((each) => each.technology === chosen)
      if (pack === undefined || plan === undefined) continue
      const standing = new Map(
        plan.layers.map(({ layer }) => [layer, standingOn(layer, pack, plan, board).obstacles]),
      )
      const touched = plan.routes.filter(({ exitLayer, path, width }) =>
        (standing.get(exitLayer) ?? []).some(
          ({ at, diameter }) => distanceToPath(at, path) < (diameter + width) / 2,
        ),
      )
      expect(touched.map(({ net }) => net)).toEqual([])
    }
  })

  it('begins every route of the layer at a round of its own', async () => {
    const board = await boardIn(file)
    for (const { package: name, plans } of escapesOf(board)) {
      const pack = board.packages.find((each) => each.name === name) ?? fail()
      for (const plan of plans) {
        for (const { layer, escaped } of plan.layers) {
          const { starts } = standingOn(layer, pack, plan, board)
          expect(starts).toHaveLength(escaped)
        }
      }
    }
  })
})

function fail(): never {
  throw new Error('the board lacks what this test looks at')
}
