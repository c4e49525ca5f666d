import { describe, expect, it } from 'vitest'
import { planText } from '../../../src/cli/text/planText.ts'
import type { EscapePlan } from '../../../src/escape/escape.ts'
import { board } from '../../report/fixtures/board.ts'
import { escapes } from '../../report/fixtures/escapes.ts'

function planOf(technology: EscapePlan['technology']): EscapePlan {
  const plan = escapes[0]?.plans.find((each) => each.technology === technology)
  if (plan === undefined) throw new Error('the sample lacks the plan')
  return plan
}

const words = (text: string): string => text.replace(/\s+/g, ' ')

describe('the text of a plan', () => {
  const plan = planOf('through')
  const text = planText(board, plan, 'Plan')

  it('says for each layer how many waited, left, and could leave at most', () => {
    for (const { layer, escaped, bound } of plan.layers) {
      expect(words(text)).toContain(`L${layer} ${bound?.waiting} ${escaped} ${bound?.atMost}`)
    }
  })

  it('says what is proven and what is heuristic', () => {
    expect(words(text)).toContain('layers: 3 by this plan (heuristic); at least 3 for every signal (proven)')
    expect(words(planText(board, { ...plan, atLeastLayers: null }, 'Plan'))).toContain(
      'no number is enough for every signal (proven)',
    )
  })

  it('says what was compared, and nothing of faults where there are none', () => {
    expect(text).toContain('48213 distances compared with the rules, 0 too small')
    expect(text).not.toContain('FAULT')
  })

  it('calls a broken clearance a fault of the program before anything else', () => {
    const fault = {
      layer: 3,
      ball: 'C3',
      other: 'trace of C4',
      otherBall: 'C4',
      rule: 'trace to trace',
      found: 70e-6,
      needed: 75e-6,
    } as const
    const broken = words(planText(board, { ...plan, check: { compared: 9, faults: [fault] } }, 'Plan'))
    expect(broken.indexOf('FAULT OF THE PROGRAM')).toBeLessThan(broken.indexOf('waiting'))
    expect(broken).toContain('C3 L3 trace of C4 trace to trace 0.070 mm 0.075 mm')
    expect(broken).toContain('9 distances compared with the rules, 1 too small')
  })

  it('keeps inside the page', () => {
    const widths = text.split('\n').map((line) => line.length)
    expect(Math.max(...widths)).toBeLessThanOrEqual(100)
  })

  it('names who stays inside, or says that nobody does', () => {
    expect(words(text)).toContain('22 not out E5 (DDR4_CHANNEL_A_BYTE7_DQ55), E7 (')
    expect(text.match(/why: every channel of the signal layers is taken/g)).toHaveLength(1)
    expect(planText(board, planOf('blind'), 'Plan')).toContain('every signal ball is out')
  })
})
