import { describe, expect, it } from 'vitest'
import { minimumFinishedCopper, nominalFinishedCopper } from '../../../src/board/stackup/finishedCopper.ts'
import { parseQuantity } from '../../../src/units/parse.ts'

const um = 1e-6
const mil = 25.4e-6

function foil(weight: string): number {
  const reading = parseQuantity(weight, 'copper thickness', null)
  return reading.ok ? reading.value : NaN
}

describe('finished copper', () => {
  // NCAB Group, FAQ on finished copper, quoting IPC-6012 Tables 3-13 and 3-14. Half the last printed digit.
  it.each([
    ['0.5 oz', null, 11.4],
    ['2 oz', null, 55.7],
    ['1 oz', 2, 47.9],
    ['1 oz', 3, 52.9],
  ] as const)('of %s in class %s is at least %s um', (weight, ipcClass, minimum) => {
    expect(Math.abs(minimumFinishedCopper(foil(weight), ipcClass) / um - minimum)).toBeLessThanOrEqual(0.05)
  })

  // The same tables, from memory: the rows that the article does not quote.
  it.each([
    ['1 oz', null, 24.9],
    ['3 oz', null, 86.6],
    ['0.5 oz', 2, 33.4],
    ['0.5 oz', 3, 38.4],
    ['2 oz', 2, 78.7],
  ] as const)(
    'of %s in class %s is at least %s um, by the table from memory',
    (weight, ipcClass, minimum) => {
      expect(Math.abs(minimumFinishedCopper(foil(weight), ipcClass) / um - minimum)).toBeLessThanOrEqual(0.06)
    },
  )

  // A fabricator publishes 15.2 um, that is 0.6 mil: half the last printed digit of the mil figure.
  it('of 1/2 oz inside comes out at the 0.6 mil that a fabricator publishes', () => {
    expect(Math.abs(nominalFinishedCopper(foil('0.5 oz'), 0, false) / mil - 0.6)).toBeLessThanOrEqual(0.05)
  })

  it('is nominally more than the minimum, for every weight, inside and out', () => {
    for (const weight of ['0.125 oz', '0.25 oz', '0.375 oz', '0.5 oz', '1 oz', '2 oz', '3 oz', '4 oz']) {
      const start = foil(weight)
      expect(nominalFinishedCopper(start, 0, false)).toBeGreaterThan(minimumFinishedCopper(start, null))
      expect(nominalFinishedCopper(start, 25 * um, true)).toBeGreaterThan(minimumFinishedCopper(start, 3))
      expect(nominalFinishedCopper(start, 0, false)).toBeLessThan(start)
    }
  })

  it('takes plated inner copper from the table of plated layers', () => {
    const start = foil('1 oz')
    expect(nominalFinishedCopper(start, 20 * um, false)).toBe(nominalFinishedCopper(start, 20 * um, true))
  })

  it('refuses foil that is none, with the value', () => {
    expect(() => minimumFinishedCopper(0, null)).toThrow('got 0 m')
    expect(() => minimumFinishedCopper(NaN, 2)).toThrow('got NaN m')
  })
})
