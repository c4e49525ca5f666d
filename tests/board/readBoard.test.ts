import { expect, describe, it } from 'vitest'
import { exampleBoard, readText, exampleText } from './exampleBoard.ts'

describe('readBoard', () => {
  it('reads the example board without an issue', async () => {
    const { board, issues } = await readText(exampleText())
    expect(issues).toEqual([])
    expect(board?.nets).toHaveLength(13)
  })

  it('keeps every number in metres, seconds and ohms', async () => {
    const board = await exampleBoard()
    const [via] = board.vias
    expect(via).toMatchObject({ firstLayer: 1, lastLayer: 8, drilledDiameter: 0.2e-3 })
    expect(via?.finishedDiameter).toBeCloseTo(0.15e-3, 12)
  })
})
