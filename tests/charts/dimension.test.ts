import { describe, expect, it } from 'vitest'
import { levelDimension, uprightDimension } from '../../src/charts/dimension.ts'

const room: readonly [number, number] = [0, 400]

function anchorOf(svg: string): string | undefined {
  return /text-anchor="(\w+)"/.exec(svg)?.[1]
}

describe('a level dimension', () => {
  it('carries its text in the middle where it fits', () => {
    const svg = levelDimension({ from: 100, to: 300, at: 50, text: '0.8 mm', room })
    expect(anchorOf(svg)).toBe('middle')
    expect(svg).toContain('x="200"')
    expect(svg).toContain('M100 50L300 50')
  })

  it('carries it at its right where the distance is short, and at its left where the right has no room', () => {
    expect(anchorOf(levelDimension({ from: 100, to: 110, at: 50, text: '0.1 mm', room }))).toBe('start')
    expect(anchorOf(levelDimension({ from: 380, to: 390, at: 50, text: '0.1 mm', room }))).toBe('end')
  })

  it('never runs out of its room where neither side has enough', () => {
    const svg = levelDimension({ from: 95, to: 105, at: 50, text: 'a long text', room: [80, 130] })
    expect(anchorOf(svg)).toBe('start')
    expect(svg).toContain('<text x="80"')
  })

  it('points from outside at a distance too short for arrows, and never less than the distance', () => {
    const svg = levelDimension({ from: 100, to: 104, at: 50, text: '', room })
    expect(svg).toContain('M92 50L112 50')
  })

  it('leads to the edges that it measures', () => {
    const svg = levelDimension({ from: 100, to: 300, at: 50, text: '', room, edge: 10 })
    expect(svg).toContain('M100 10L100 54')
    expect(svg).toContain('M300 10L300 54')
  })

  it('may be given its ends in either order', () => {
    expect(levelDimension({ from: 300, to: 100, at: 50, text: 'a', room })).toBe(
      levelDimension({ from: 100, to: 300, at: 50, text: 'a', room }),
    )
  })
})

describe('an upright dimension', () => {
  it('runs between its ends with the text beside its middle', () => {
    const svg = uprightDimension({ from: 20, to: 120, at: 50, text: '0.1 mm' })
    expect(svg).toContain('M50 20L50 120')
    expect(svg).toContain('x="58" y="73.5"')
  })
})
