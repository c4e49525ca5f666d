import { describe, expect, it } from 'vitest'
import { LIMITS, microstripPairEmbedded } from '../../../src/impedance/closedForm/microstripPairEmbedded.ts'
import { microstripPairThick } from '../../../src/impedance/closedForm/microstripPairThick.ts'
import { missedRows } from '../../helpers/compareTable.ts'
import { checkValues, fourConstants, microstripPair } from '../../helpers/pairShapes.ts'

const PAIR = microstripPair(100, 100, 100, 35, 4)
const sheet = (micrometres: number, relativePermittivity: number) => ({
  thickness: micrometres * 1e-6,
  relativePermittivity,
})

describe('microstripPairEmbedded', () => {
  it('has the values of a second implementation in another language, one sheet and two', () => {
    const rows = [
      ...checkValues(
        'one',
        fourConstants(microstripPairEmbedded({ ...PAIR, covers: [sheet(60, 4)] })),
        [70.7743029335, 41.7602069304, 3.55782806249, 3.62400990372],
      ),
      ...checkValues(
        'two',
        fourConstants(
          microstripPairEmbedded({
            ...microstripPair(150, 200, 80, 18, 3.6),
            covers: [sheet(50, 3.9), sheet(20, 3.5)],
          }),
        ),
        [50.3759586168, 42.5915213065, 3.33709392296, 3.33638886576],
      ),
    ]
    expect(missedRows(rows)).toBe('')
  })

  it('is unchanged when a sheet is divided', () => {
    const whole = fourConstants(microstripPairEmbedded({ ...PAIR, covers: [sheet(80, 3.8)] }))
    const parts = fourConstants(microstripPairEmbedded({ ...PAIR, covers: [sheet(30, 3.8), sheet(50, 3.8)] }))
    parts.forEach((value, index) => {
      expect(value).toBeCloseTo(whole[index] ?? NaN, 11)
    })
  })

  it('is the bare pair under a sheet of air, and buried under one without end', () => {
    const bare = fourConstants(microstripPairThick(PAIR))
    fourConstants(microstripPairEmbedded({ ...PAIR, covers: [sheet(80, 1)] })).forEach((value, index) => {
      expect(value).toBeCloseTo(bare[index] ?? NaN, 11)
    })
    const buried = microstripPairEmbedded({ ...PAIR, covers: [sheet(1e7, 4)] })
    expect(buried.even.effectivePermittivity).toBeCloseTo(4, 9)
    expect(buried.odd.effectivePermittivity).toBeCloseTo(4, 9)
  })

  it('states the box of its fit', () => {
    expect(LIMITS.map(({ quantity, min, max }) => [quantity, min, max])).toEqual([
      ['width/height', 0.2, 5],
      ['gap/height', 0.2, 15],
      ['thickness/gap', 0, 0.8],
      ['cover/height', 0.03, 5],
      ['relative permittivity', 3, 4.5],
      ['cover permittivity', 3, 4.5],
    ])
  })

  it('refuses a pair without cover or gap', () => {
    expect(() => microstripPairEmbedded({ ...PAIR, covers: [] })).toThrow(/cover/)
    expect(() => microstripPairEmbedded({ ...PAIR, gap: 0, covers: [sheet(60, 4)] })).toThrow(/gap > 0/)
  })
})
