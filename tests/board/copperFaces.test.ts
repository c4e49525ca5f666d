import { describe, expect, it } from 'vitest'
import { betweenMiddles, copperFaces } from '../../src/board/copperFaces.ts'
import { exampleBoard } from './exampleBoard.ts'

const { stackup } = await exampleBoard()
const um = (value: number): number => value * 1e-6

describe('where copper lies', () => {
  it('is each layer as thick as it is, below what stands above it', () => {
    const faces = copperFaces(stackup)
    expect(faces.size).toBe(stackup.copper.length)
    for (const { number, thickness } of stackup.copper) {
      const own = faces.get(number)
      expect((own?.bottom ?? NaN) - (own?.top ?? NaN)).toBeCloseTo(thickness, 15)
    }
  })

  it('is measured from middle to middle, either way, and is nothing from a layer to itself', () => {
    // 20 + 75 + 15 + 100 + 7.5 um.
    expect(betweenMiddles(stackup, 1, 3)).toBeCloseTo(um(217.5), 12)
    expect(betweenMiddles(stackup, 3, 1)).toBe(betweenMiddles(stackup, 1, 3))
    for (const { number } of stackup.copper) expect(betweenMiddles(stackup, number, number)).toBe(0)
    expect(() => betweenMiddles(stackup, 1, 99)).toThrow('no copper layer 99')
  })
})
