import { describe, expect, it } from 'vitest'
import type { ClearanceFault, EscapePlan, WithoutMain } from '../../../../src/escape/escape.ts'
import { reportContext } from '../../../../src/report/viewModel/context.ts'
import { escapeSection } from '../../../../src/report/viewModel/sections/escape.ts'
import type { Section } from '../../../../src/report/viewModel/section.ts'
import type { Review } from '../../../../src/review.ts'
import { sampleReview } from '../../fixtures/review.ts'
import { textOf } from '../../markup.ts'
import { rows, tableOf } from '../rows.ts'

function unknown(ball: string, layer: number): WithoutMain {
  return { ball, net: `net ${ball}`, layer, reason: 'no width', fault: null }
}

function tooNear(ball: string, other: string, otherBall: string | null, found: number): WithoutMain {
  const rule = otherBall === null ? 'keep-out' : 'trace to trace'
  const needed = otherBall === null ? 0 : 75e-6
  const fault = { layer: 1, ball, other, otherBall, rule, found, needed } as const
  return { ball, net: `net ${ball}`, layer: 1, reason: 'too near', fault }
}

/** The sample with nets of U1 whose main routes are not drawn. */
function without(...withoutMain: WithoutMain[]): Section {
  const escapes = sampleReview.escapes.map((escape, index) =>
    index === 0 ? { ...escape, withoutMain } : escape,
  )
  return escapeSection(reportContext({ ...sampleReview, escapes }))
}

/** The sample with its first plan changed. */
function changed(change: (plan: EscapePlan) => EscapePlan): Section {
  const escapes = sampleReview.escapes.map((escape) => ({
    ...escape,
    plans: escape.plans.map((plan) =>
      escape.package === 'U1' && plan.technology === 'through' ? change(plan) : plan,
    ),
  }))
  const review: Review = { ...sampleReview, escapes }
  return escapeSection(reportContext(review))
}

const section = changed((plan) => plan)

describe('the escape table', () => {
  it('says for each layer who waited, who left, who could at most, and what limits it', () => {
    const lines = rows(tableOf(section, 'escape-u1'))
    expect(lines).toEqual([
      'L1 / without a via | 174 | 89 | 91 | 78 gates / traces of 0.080 mm, 0.080 mm apart | 1, 2 | 1.766 mm | 130 | 1',
      'L3 / by through via | 85 | 34 | 36 | 28 gates / traces of 0.080 mm, 0.080 mm apart | 3 | 2.731 mm | 130 | 1',
      'L8 / by through via | 51 | 29 | 31 | 0 gates / traces of 0.080 mm, 0.080 mm apart | 4 | 3.531 mm | 130 | 1',
    ])
  })

  it('says where the plan reaches its bound, and where nothing limits it', () => {
    const reached = changed((plan) => ({
      ...plan,
      layers: plan.layers.map((layer, index) => {
        const { bound, escaped } = layer
        if (bound === null) throw new Error('the sample has bounds')
        if (index === 2) return { ...layer, bound: null }
        return { ...layer, bound: { ...bound, atMost: index === 0 ? escaped : bound.waiting } }
      }),
    }))
    const table = tableOf(reached, 'escape-u1')
    expect(table.rows.map(({ cells }) => cells[3]?.notes)).toEqual([['reached'], [], []])
    expect(table.rows.map(({ cells }) => cells[4]?.text)).toEqual(['78 gates', 'no cut', '–'])
  })

  it('says where main routes begin, which necks run on for it, and how many nets go without', () => {
    const [first, second] = sampleReview.escapes[0]?.plans[0]?.routes ?? []
    if (first === undefined || second === undefined) throw new Error('the sample has routes')
    const path = [
      { x: 0, y: 0 },
      { x: 0, y: 0.3e-3 },
    ]
    const start = { layer: 1, width: 0.12e-3, path, runOn: [], runOnLength: 0 }
    const mains = [
      { ...start, ball: first.ball },
      { ...start, ball: second.ball, runOn: path, runOnLength: 0.3e-3 },
    ]
    const withoutMain = [unknown('C3', 1), unknown('C4', 1)]
    const escapes = sampleReview.escapes.map((escape, index) =>
      index === 0 ? { ...escape, mains, withoutMain } : escape,
    )
    const widened = escapeSection(reportContext({ ...sampleReview, escapes }))
    const notes = tableOf(widened, 'escape-u1').notes.join(' ').replaceAll('\u00a0', ' ')
    expect(notes).toContain(
      'Main routes that begin: 2, 1 of them after the neck has run on to make room, by up to 0.300 mm',
    )
    expect(notes).toContain('which counts as neck. 2 nets without, listed below.')
  })

  it('sets the proven number of layers beside each plan, and what its clearance check compared', () => {
    const lines = rows(tableOf(section, 'technologies'))
    expect(lines[0]).toContain(
      'Through vias (as described) | 3 | 3 | L1, L3, L8 | 152 | 22 | 3.531 mm | 48 213',
    )
    expect(tableOf(section, 'technologies').rows[0]?.cells.at(-1)?.verdict?.text).toBe('none too small')
    const none = changed((plan) => ({ ...plan, atLeastLayers: null }))
    expect(rows(tableOf(none, 'technologies'))[0]).toContain('| none is enough |')
  })

  it('draws a map for each layer on which nets leave', () => {
    expect(section.laterFigures.map(({ id }) => id)).toEqual([
      'map-u1-1',
      'map-u1-3',
      'map-u1-8',
      'map-u2-1',
      'map-u2-3',
    ])
  })

  it('says what is proven and what is heuristic, and nothing of faults where there are none', () => {
    const text = section.paragraphs.join(' ')
    expect(text).toContain('Proven: on each layer no plan lets more single nets out')
    expect(text).toContain('Heuristic: which nets share a layer')
    expect(text).not.toContain('Fault of the program')
    expect(section.tables.map(({ id }) => id)).not.toContain('faults-u1')
  })
})

describe('the table of nets without a main route', () => {
  const lines = (...nets: WithoutMain[]): string[] => rows(tableOf(without(...nets), 'without-main-u1'))

  it('is not there where every net that leaves has one', () => {
    expect(section.tables.map(({ id }) => id).filter((id) => id.startsWith('without-main'))).toEqual([])
  })

  it('says on which layers no width reaches the target, the nets of a layer in one row', () => {
    const why = 'no width that can be etched reaches the target on this layer'
    expect(lines(unknown('C3', 1), unknown('D3', 3), unknown('C4', 1))).toEqual([
      `C3 (net C3) and C4 (net C4) | 2 | L1 | ${why} | – | –`,
      `D3 (net D3) | 1 | L3 | ${why} | – | –`,
    ])
  })

  it('says what others would come too near to, with what was found and what is needed', () => {
    expect(lines(tooNear('C3', 'main route of A5', 'A5', 30e-6))).toEqual([
      'C3 (net C3) | 1 | L1 | would come too near to the main route of A5 | 0.030 mm | 0.075 mm',
    ])
    expect(
      lines(
        tooNear('C3', 'trace of A5', 'A5', 30e-6),
        tooNear('C4', 'trace of A6', 'A6', 40e-6),
        tooNear('C5', 'main route of A7', 'A7', 50e-6),
      ),
    ).toEqual([
      'C3 (net C3) and C4 (net C4) | 2 | L1 | would come too near to the traces of A5 and A6 | 0.030 to 0.040 mm | 0.075 mm',
      'C5 (net C5) | 1 | L1 | would come too near to the main route of A7 | 0.050 mm | 0.075 mm',
    ])
  })

  it('names a keep-out, and says what lies below zero', () => {
    const kept = without(tooNear('C3', 'keep-out C12', null, -50e-6))
    expect(rows(tableOf(kept, 'without-main-u1'))).toEqual([
      'C3 (net C3) | 1 | L1 | would come too near to keep-out C12 | -0.050 mm | 0.000 mm',
    ])
    expect(tableOf(kept, 'without-main-u1').notes.join(' ')).toContain('Found below zero')
    expect(tableOf(without(unknown('C3', 1)), 'without-main-u1').notes).toEqual([])
  })
})

describe('a plan that breaks a clearance rule', () => {
  const fault: ClearanceFault = {
    layer: 3,
    ball: 'C3',
    other: 'trace of C4',
    otherBall: 'C4',
    rule: 'trace to trace',
    found: 70e-6,
    needed: 75e-6,
  }
  const broken = changed((plan) => ({ ...plan, check: { compared: 9, faults: [fault] } }))

  it('is called a fault of the program before anything else', () => {
    expect(broken.paragraphs[0]).toContain(
      'Fault of the program: the plan of U1 breaks the clearance rules in 1 place',
    )
    expect(rows(broken.tables[0] ?? tableOf(broken, 'none'))[0]).toContain(
      'C3 | L3 | trace of C4 | trace to trace | 0.070 mm | 0.075 mm',
    )
    expect(tableOf(broken, 'technologies').rows[0]?.cells.at(-1)?.verdict?.tone).toBe('fail')
  })

  it('is drawn without the nets concerned', () => {
    const map = (of: Section): string => of.laterFigures.find(({ id }) => id === 'map-u1-3')?.chartSvg ?? ''
    expect(map(section)).toContain('id="map-u1-3-c3"')
    expect(map(section)).toContain('id="map-u1-3-c4"')
    expect(map(broken)).not.toMatch(/id="map-u1-3-c[34]"/)
    expect(textOf(map(broken))).toContain('32 nets leave on this layer')
  })
})
