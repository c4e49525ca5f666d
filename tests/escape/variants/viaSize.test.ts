import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  depthBetween,
  DRILL,
  holeFor,
  LASER,
  leastAntipad,
  leastPad,
} from '../../../src/escape/variants/viaSize.ts'
// Written for the findings, apart from this.
import { depthBetween as depthOfFindings } from '../../../src/findings/boardIndex.ts'
import { fabrication, packageOf, um } from '../fixtures.ts'
import { laminated } from './fixtures.ts'

const SEED = 20261125

describe('the size of an invented via', () => {
  it('is the least step of the tool that keeps the aspect ratio', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 20, max: 4000 }),
        fc.constantFrom(0.8, 1, 8, 10),
        fc.constantFrom(DRILL, LASER),
        (depth, ratio, tool) => {
          const hole = holeFor(um(depth), ratio, tool)
          expect(um(depth) / hole).toBeLessThanOrEqual(ratio * (1 + 1e-6))
          expect(hole).toBeGreaterThanOrEqual(tool.least * (1 - 1e-9))
          const finer = hole - tool.step
          expect(finer < tool.least * (1 - 1e-6) || um(depth) / finer > ratio * (1 - 1e-6)).toBe(true)
        },
      ),
      { seed: SEED, numRuns: 300 },
    )
  })

  it('takes no larger tool where the quotient is a whole number of steps', () => {
    expect(holeFor(um(3000), 10, DRILL)).toBeCloseTo(um(300), 12)
    expect(holeFor(um(80), 0.8, LASER)).toBeCloseTo(um(100), 12)
  })

  it('has the larger of the pads that the inner and the outer ring ask for', () => {
    const made = fabrication({
      annularRing: { ipcClass: 2, external: um(50), internal: um(25), source: 'invented' },
      registration: um(75),
    })
    expect(leastPad({ drilledDiameter: um(200), finishedDiameter: um(180) }, made)).toBeCloseTo(um(430), 12)
    expect(leastPad({ drilledDiameter: um(200), finishedDiameter: um(100) }, made)).toBeCloseTo(um(400), 12)
  })

  it('keeps planes off the hole and off the pad', () => {
    // Hole 200 + 2 · 150 = 500; pad 400 + 2 · 100 = 600; pad 250 + 2 · 100 = 450.
    expect(leastAntipad(um(200), um(400), fabrication())).toBeCloseTo(um(600), 12)
    expect(leastAntipad(um(200), um(250), fabrication())).toBeCloseTo(um(500), 12)
  })
})

describe('the depth between copper layers', () => {
  const board = laminated(packageOf(['ss']))

  it('is what the findings measure, from any layer to any other and back', () => {
    for (let one = 1; one <= 10; one += 1) {
      for (let other = one; other <= 10; other += 1) {
        const expected = depthOfFindings(board, one, other)
        expect(depthBetween(board, one, other)).toBeCloseTo(expected, 12)
        expect(depthBetween(board, other, one)).toBeCloseTo(expected, 12)
      }
    }
  })
})
