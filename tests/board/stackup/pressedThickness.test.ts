import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { pressedThickness } from '../../../src/board/stackup/pressedThickness.ts'

const mil = 25.4e-6
const um = 1e-6

describe('pressed thickness', () => {
  // A fabricator's chart of single plies (studylib document 25649012): 106 is 2.3 mil against foil.
  // Tolerance as stated with the chart's reading, 0.15 mil: the order of its columns is inferred.
  it.each([
    ['0.5 oz at 30 %', 17.1, 0.3, 1.9],
    ['1 oz at 30 %', 34.3, 0.3, 1.5],
    ['2 oz at 70 %', 68.6, 0.7, 1.5],
  ])('of one ply of 106 against %s copper is that of the chart', (_, copperUm, coverage, pressedMil) => {
    const plies = [{ style: '106', count: 1, thickness: 2.3 * mil }]
    const pressed = pressedThickness(plies, [{ thickness: copperUm * um, coverage }])
    expect(Math.abs(pressed / mil - pressedMil)).toBeLessThanOrEqual(0.15)
  })

  it('is the sum of the plies where no copper stands in it, or copper covers everything', () => {
    const plies = [
      { style: '1080', count: 2, thickness: 75 * um },
      { style: '106', count: 1, thickness: 50 * um },
    ]
    expect(pressedThickness(plies, [])).toBeCloseTo(200 * um, 12)
    expect(pressedThickness(plies, [{ thickness: 35 * um, coverage: 1 }])).toBeCloseTo(200 * um, 12)
  })

  it('keeps the volume: dielectric, and resin in the gaps of the copper, are the plies', () => {
    const sheet = fc.record({
      style: fc.constant('106'),
      count: fc.integer({ min: 1, max: 4 }),
      thickness: fc.double({ min: 40 * um, max: 200 * um, noNaN: true }),
    })
    const copper = fc.record({
      thickness: fc.double({ min: 5 * um, max: 40 * um, noNaN: true }),
      coverage: fc.double({ min: 0, max: 1, noNaN: true }),
    })
    fc.assert(
      fc.property(
        fc.array(sheet, { minLength: 1, maxLength: 3 }),
        fc.array(copper, { maxLength: 2 }),
        (plies, embedded) => {
          const pressed = pressedThickness(plies, embedded)
          const gaps = embedded.map(({ thickness, coverage }) => thickness - thickness * coverage)
          const material = plies.flatMap(({ count, thickness }) => Array<number>(count).fill(thickness))
          const sum = (list: readonly number[]): number => list.reduce((total, value) => total + value, 0)
          expect(pressed + sum(gaps)).toBeCloseTo(sum(material), 12)
        },
      ),
      { seed: 3 },
    )
  })

  it('goes below zero where thin prepreg meets thick copper, for the caller to refuse', () => {
    const plies = [{ style: '106', count: 1, thickness: 50 * um }]
    expect(pressedThickness(plies, [{ thickness: 105 * um, coverage: 0.3 }])).toBeLessThan(0)
  })
})
