import { describe, expect, it } from 'vitest'
import { printable } from '../../../src/cli/text/printable.ts'

describe('printable', () => {
  it('keeps text, line ends and signs of the trade', () => {
    expect(printable('50 ohm ± 1 %\nµΩ²–…')).toBe('50 ohm ± 1 %\nµΩ²–…')
  })

  it('lets no name steer a terminal or turn the writing round', () => {
    expect(printable('\u001B[2J\u0007\u009B\r\t\u202E\u2066\u007F')).toBe(`\uFFFD[2J${'\uFFFD'.repeat(7)}`)
  })
})
