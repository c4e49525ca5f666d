import { describe, expect, it } from 'vitest'
import { neckSection } from '../../../src/report/figures/neckSection.ts'
import type { CrossSection } from '../../../src/section/crossSection.ts'
import { section } from '../fixtures/lines.ts'
import { textOf } from '../markup.ts'

const stated: CrossSection = { ...section(3, 80e-6, null), assumed: [] }
const [sheet] = stated.below

function assuming(quantity: string): CrossSection {
  const assumed = [{ path: 'stackup.layers[3]', quantity, value: '3.60', source: 'invented for this test' }]
  return { ...stated, assumed }
}

function drawn(line: CrossSection): string {
  return textOf(neckSection({ id: 'neck', section: line, title: 'Neck', unit: 'mm' }))
}

describe('the section of a neck', () => {
  it('marks the permittivity that is assumed, of that sheet alone', () => {
    const name = sheet?.name ?? ''
    const text = drawn(assuming(`relative permittivity of ${name}`))
    expect(text.match(/permittivity 3\.60 at 1 GHz/g)).toHaveLength(2)
    expect(text.match(/permittivity 3\.60 at 1 GHz \(assumed\)/g)).toHaveLength(1)
    expect(drawn(assuming(`loss tangent of ${name}`))).not.toContain('assumed')
  })

  it('marks the width at the top that follows from an assumed side wall', () => {
    expect(drawn(assuming('side wall of L3'))).toMatch(/width at the top [\d.]+ mm \(side wall assumed\)/)
    expect(drawn(assuming('side wall of L5'))).not.toContain('assumed')
  })
})
