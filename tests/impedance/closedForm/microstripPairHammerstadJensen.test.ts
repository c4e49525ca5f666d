import { describe, expect, it } from 'vitest'
import {
  LIMITS,
  microstripPairHammerstadJensen,
} from '../../../src/impedance/closedForm/microstripPairHammerstadJensen.ts'
import { microstripPairKirschningJansen } from '../../../src/impedance/closedForm/microstripPairKirschningJansen.ts'
import { missedRows, within } from '../../helpers/compareTable.ts'
import { tenfold } from '../../helpers/lineShapes.ts'
import { checkValues, fourConstants, microstripPair } from '../../helpers/pairShapes.ts'

describe('microstripPairHammerstadJensen', () => {
  it('has the check values of an independent implementation of the same equations', () => {
    const rows = [
      ...checkValues(
        '1, 1, 4.2',
        fourConstants(microstripPairHammerstadJensen(microstripPair(100, 100, 100, 0, 4.2))),
        [82.5259043554, 61.804687969, 3.2430202843, 2.77534784223],
      ),
      ...checkValues(
        '0.5, 0.5, 3.5',
        fourConstants(microstripPairHammerstadJensen(microstripPair(50, 50, 100, 0, 3.5))),
        [132.727029653, 75.8774579656, 2.64120311607, 2.2947209255],
      ),
    ]
    expect(missedRows(rows)).toBe('')
  })

  it('has the values of a second implementation at narrow and wide gaps', () => {
    const rows = [
      ...checkValues(
        '0.3, 0.12, 4.2',
        fourConstants(microstripPairHammerstadJensen(microstripPair(30, 12, 100, 0, 4.2))),
        [169.444636809, 57.3545527286, 2.97865116441, 2.61473460598],
      ),
      ...checkValues(
        '3, 9, 2.5',
        fourConstants(microstripPairHammerstadJensen(microstripPair(300, 900, 100, 0, 2.5))),
        [48.5839385021, 48.4280380357, 2.11040795592, 2.02642239759],
      ),
    ]
    expect(missedRows(rows)).toBe('')
  })

  it('agrees with Kirschning and Jansen, who refitted it, within what both are off a numerical solution', () => {
    // Worst against a boundary-element solution, this form and the refitted one: even 0.75 and 0.69 %, odd 1.5 and 0.8 %,
    // so no more than the sums apart. For the odd permittivity only that of the refitted form is known here, 0.8 %.
    const rows = [0.3, 1, 3].flatMap((u) =>
      [0.2, 0.6, 2].flatMap((g) => {
        const pair = microstripPair(100 * u, 100 * g, 100, 0, 4.2)
        const [hj, kj] = [microstripPairHammerstadJensen(pair), microstripPairKirschningJansen(pair)]
        return [
          within(0.0144, `even ${u}, ${g}`, hj.even.impedance, kj.even.impedance),
          within(0.023, `odd ${u}, ${g}`, hj.odd.impedance, kj.odd.impedance),
          within(
            0.008,
            `odd permittivity ${u}, ${g}`,
            hj.odd.effectivePermittivity,
            kj.odd.effectivePermittivity,
          ),
        ]
      }),
    )
    expect(missedRows(rows)).toBe('')
  })

  it('has permittivity 1 in air', () => {
    const { even, odd } = microstripPairHammerstadJensen(microstripPair(70, 40, 100, 0, 1))
    expect(even.effectivePermittivity).toBe(1)
    expect(odd.effectivePermittivity).toBe(1)
  })

  it('knows no scale', () => {
    const pair = microstripPair(100, 80, 90, 0, 4.1)
    expect(microstripPairHammerstadJensen(tenfold(pair)).odd.impedance).toBeCloseTo(
      microstripPairHammerstadJensen(pair).odd.impedance,
      11,
    )
  })

  it('states the range of the paper', () => {
    expect(LIMITS.map(({ quantity, min, max }) => [quantity, min, max])).toEqual([
      ['width/height', 0.1, 10],
      ['gap/height', 0.1, 10],
      ['relative permittivity', 1, 18],
      ['thickness/gap', 0, 0],
    ])
  })

  it('refuses a pair without gap', () => {
    expect(() => microstripPairHammerstadJensen(microstripPair(100, 0, 100, 0, 4))).toThrow(RangeError)
  })
})
