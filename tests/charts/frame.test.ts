import { describe, expect, it } from 'vitest'
import { frame } from '../../src/charts/frame.ts'
import { pattern, patternFill } from '../../src/charts/patterns.ts'

const spec = {
  id: 'plan-1',
  title: 'A <plan>',
  description: 'What it "shows"',
  width: 100,
  height: 50.2,
  body: ['<g/>'],
}

describe('the frame of a figure', () => {
  it('is an image named by its title and description', () => {
    const svg = frame(spec)
    expect(svg).toMatch(/^<svg [^>]*role="img"/)
    expect(svg).toContain('aria-labelledby="plan-1-title plan-1-desc"')
    expect(svg).toContain('<title id="plan-1-title">A &lt;plan&gt;</title>')
    expect(svg).toContain('<desc id="plan-1-desc">What it &quot;shows&quot;</desc>')
  })

  it('shows the whole of its area', () => {
    expect(frame(spec)).toContain('viewBox="0 0 100 51"')
  })

  it.each(['', 'Plan', '1-plan', 'a b', 'a"b', 'a#b'])('refuses the id "%s"', (id) => {
    expect(() => frame({ ...spec, id })).toThrow(RangeError)
  })

  it.each([0, -1, NaN])('refuses the width %d', (width) => {
    expect(() => frame({ ...spec, width })).toThrow('needs an area')
  })
})

describe('patterns', () => {
  it('carry the id of their figure, so that two figures on a page do not share one', () => {
    expect(pattern({ figure: 'plan-1', kind: 'counter diagonal' })).toContain(
      'id="plan-1-fill-counter-diagonal"',
    )
    expect(patternFill({ figure: 'plan-1', kind: 'counter diagonal' })).toBe(
      'url(#plan-1-fill-counter-diagonal)',
    )
  })

  it('of one kind are told apart by their variant', () => {
    const ids = [undefined, 'dark'].map((variant) =>
      patternFill({ figure: 'a', kind: 'dots', ...(variant === undefined ? {} : { variant }) }),
    )
    expect(new Set(ids).size).toBe(2)
  })

  it('differ from one another in shape and not in colour alone', () => {
    const shapes = (['diagonal', 'counter diagonal', 'cross', 'dots', 'horizontal', 'vertical'] as const).map(
      (kind) => {
        const drawn = pattern({ figure: 'a', kind })
        return [/ d="([^"]+)"/.exec(drawn)?.[1], /rotate\([^)]+\)/.exec(drawn)?.[0]].join(' ')
      },
    )
    expect(new Set(shapes).size).toBe(6)
  })
})
