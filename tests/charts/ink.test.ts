import { describe, expect, it } from 'vitest'
import { INK } from '../../src/charts/ink.ts'

/** Relative luminance and contrast: W3C, Web Content Accessibility Guidelines 2.2, definitions. */
function luminance(colour: string): number {
  const channels = [1, 3, 5].map((at) => parseInt(colour.slice(at, at + 2), 16) / 255)
  const [red = 0, green = 0, blue = 0] = channels.map((value) =>
    value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4,
  )
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue
}

function contrast(one: string, other: string): number {
  const [dark = 0, light = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b)
  return (light + 0.05) / (dark + 0.05)
}

describe('the inks', () => {
  it.each(['text', 'quiet', 'accent', 'warn'] as const)(
    '%s reads on paper (success criterion 1.4.3: 4.5 to 1)',
    (name) => {
      expect(contrast(INK[name], INK.paper)).toBeGreaterThanOrEqual(4.5)
    },
  )

  it.each(['rule', 'metal'] as const)('%s is seen on paper (success criterion 1.4.11: 3 to 1)', (name) => {
    expect(contrast(INK[name], INK.paper)).toBeGreaterThanOrEqual(3)
  })

  it('keep apart in grey where they lie side by side', () => {
    expect(contrast(INK.metal, INK.metalTint)).toBeGreaterThan(2)
    expect(contrast(INK.text, INK.metal)).toBeGreaterThan(2)
    expect(contrast(INK.accentTint, INK.accent)).toBeGreaterThan(2)
  })
})
