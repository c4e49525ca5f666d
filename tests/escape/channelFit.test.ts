import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { fitChannel } from '../../src/escape/channelFit.ts'
import type { Channel, ChannelAnswer } from '../../src/escape/channelFit.ts'
import type { ClearanceRule } from '../../src/escape/clearanceRules.ts'
import { missedRows } from '../helpers/compareTable.ts'
import type { Comparison } from '../helpers/compareTable.ts'
import { um } from './fixtures.ts'
import { publishedTables, rowsOf } from './publishedTable.ts'
import type { PublishedRow } from './publishedTable.ts'

const SEED = 20260302
const TOLERANCE = um(0.5)
const tables = publishedTables('channelFits.json')

const pad = (obstacleDiameter: number, clearance: number): ClearanceRule => ({
  rule: 'trace to pad',
  obstacleDiameter,
  clearance,
})

function answer(row: PublishedRow): ChannelAnswer {
  return fitChannel({
    span: row.get('pitch'),
    rules: [pad(row.get('obstacle'), row.get('padGap'))],
    width: row.get('width'),
    traceGap: row.get('traceGap'),
    tolerance: TOLERANCE,
  })
}

function compare(row: PublishedRow, column: string, actual: number): Comparison {
  return { label: row.source, actual, expected: row.get(column), tolerance: row.tolerance(column) }
}

/** Clear space for a trace of any width. */
function clearOf(row: PublishedRow, span: number): number {
  const rules = [pad(row.get('obstacle'), row.get('clearance'))]
  return fitChannel({ span, rules, width: um(1), traceGap: 0, tolerance: 0 }).governing.clear
}

const channels = fc.record({
  span: fc.integer({ min: 300, max: 1500 }),
  diameter: fc.integer({ min: 50, max: 700 }),
  clearance: fc.integer({ min: 0, max: 200 }),
  width: fc.integer({ min: 25, max: 300 }),
  gap: fc.integer({ min: 0, max: 300 }),
})

function channelOf(draft: {
  span: number
  diameter: number
  clearance: number
  width: number
  gap: number
}): Channel {
  return {
    span: um(draft.span),
    rules: [pad(um(draft.diameter), um(draft.clearance))],
    width: um(draft.width),
    traceGap: um(draft.gap),
    tolerance: TOLERANCE,
  }
}

describe('fitChannel against published claims', () => {
  it.each(['traces, metric', 'traces, mil'])('passes as many traces as the sources say: %s', (name) => {
    const rows = rowsOf(tables, name)
    expect(missedRows(rows.map((row) => compare(row, 'traces', answer(row).traces)))).toBe('')
  })

  it.each(['traces, metric', 'traces, mil'])('leaves over what the sources leave over: %s', (name) => {
    const rows = rowsOf(tables, name).filter((row) => row.has('remainder'))
    expect(missedRows(rows.map((row) => compare(row, 'remainder', answer(row).remainder)))).toBe('')
  })

  it('refuses the claim on comp.arch.fpga that does not close, and says by how much', () => {
    for (const row of rowsOf(tables, 'traces that do not fit as claimed')) {
      const { traces, remainder, governing } = answer(row)
      expect(traces).toBe(row.get('traces'))
      expect(traces).toBeLessThan(row.get('claimed'))
      expect(missedRows([compare(row, 'remainder', remainder)])).toBe('')
      // The pad gap would shrink with the trace: a third of the gap between the pads each.
      const between = governing.clear + 2 * governing.clearance
      expect(missedRows([compare(row, 'fitsAt', between / 3)])).toBe('')
    }
  })

  it('finds the clear space of the sources, straight and diagonal', () => {
    const straight = ['clear space between columns', 'clear space between columns, mil'].flatMap((name) =>
      rowsOf(tables, name).map((row) => compare(row, 'clear', clearOf(row, row.get('pitch')))),
    )
    const diagonal = rowsOf(tables, 'clear space on the diagonal').map((row) =>
      compare(row, 'clear', clearOf(row, Math.SQRT2 * row.get('pitch'))),
    )
    expect(missedRows([...straight, ...diagonal])).toBe('')
  })

  it('finds the widest trace that Altera lets between lands at 0.5 mm', () => {
    const rows = rowsOf(tables, 'widest trace').map((row) => {
      const rules = [pad(row.get('obstacle'), row.get('padGap'))]
      const { widestOne } = fitChannel({
        span: row.get('pitch'),
        rules,
        width: um(1),
        traceGap: 0,
        tolerance: 0,
      })
      return compare(row, 'widest', widestOne ?? NaN)
    })
    expect(missedRows(rows)).toBe('')
  })

  it('passes the trace between the largest published pads, and not between larger ones', () => {
    for (const row of rowsOf(tables, 'largest obstacle')) {
      const between = (obstacle: number): number =>
        fitChannel({
          span: row.get('pitch'),
          rules: [pad(obstacle, row.get('padGap'))],
          width: row.get('width'),
          traceGap: row.get('traceGap'),
          tolerance: row.tolerance('obstacle'),
        }).traces
      expect(between(row.get('obstacle'))).toBe(row.get('traces'))
      expect(between(row.get('obstacle') + 2 * row.tolerance('obstacle'))).toBe(row.get('traces') - 1)
    }
  })

  it('needs 2 s + w, 3 s + 2 w, 4 s + 3 w for one, two and three traces (Altera AN 114, from memory)', () => {
    const [w, s, d] = [um(102), um(98), um(480)]
    for (const traces of [1, 2, 3]) {
      const span = d + (traces + 1) * s + traces * w
      const at = (length: number): number =>
        fitChannel({ span: length, rules: [pad(d, s)], width: w, traceGap: s, tolerance: TOLERANCE }).traces
      expect(at(span)).toBe(traces)
      expect(at(span - um(1))).toBe(traces - 1)
    }
  })
})

describe('fitChannel', () => {
  it('passes no more than what packs by hand, one trace after the other', () => {
    fc.assert(
      fc.property(channels, (draft) => {
        // Whole micrometres: exact.
        const clear = draft.span - draft.diameter - 2 * draft.clearance
        let packed = 0
        while ((packed + 1) * draft.width + packed * draft.gap <= clear) packed += 1
        expect(fitChannel(channelOf(draft)).traces).toBe(packed)
      }),
      { seed: SEED },
    )
  })

  it('never charges a gap to the last trace: at most one more than clear / (width + gap)', () => {
    fc.assert(
      fc.property(channels, (draft) => {
        const { traces, governing } = fitChannel(channelOf(draft))
        const charged = Math.max(
          0,
          Math.floor((governing.clear + TOLERANCE) / (um(draft.width) + um(draft.gap))),
        )
        expect(traces - charged).toBeGreaterThanOrEqual(0)
        expect(traces - charged).toBeLessThanOrEqual(1)
      }),
      { seed: SEED },
    )
  })

  it('passes the widest one and the widest two it speaks of, and nothing wider', () => {
    fc.assert(
      fc.property(channels, (draft) => {
        const channel = channelOf(draft)
        const { widestOne, widestTwo } = fitChannel(channel)
        const tracesAt = (width: number): number => fitChannel({ ...channel, width }).traces
        const counts = [widestOne, widestTwo].map((widest) =>
          widest === null ? null : [tracesAt(widest), tracesAt(widest + um(0.6))],
        )
        expect(counts[0] === null || ((counts[0]?.[0] ?? 0) >= 1 && counts[0]?.[1] === 0)).toBe(true)
        expect(counts[1] === null || ((counts[1]?.[0] ?? 0) >= 2 && (counts[1]?.[1] ?? 9) <= 1)).toBe(true)
        expect(widestOne === null).toBe(channel.span <= um(draft.diameter + 2 * draft.clearance) + 1e-15)
      }),
      { seed: SEED },
    )
  })

  it('answers the same at any scale', () => {
    fc.assert(
      fc.property(channels, fc.double({ min: 0.1, max: 10, noNaN: true }), (draft, scale) => {
        const channel = channelOf(draft)
        const scaled = fitChannel({
          span: channel.span * scale,
          rules: channel.rules.map(({ rule, obstacleDiameter, clearance }) => ({
            rule,
            obstacleDiameter: obstacleDiameter * scale,
            clearance: clearance * scale,
          })),
          width: channel.width * scale,
          traceGap: channel.traceGap * scale,
          tolerance: channel.tolerance * scale,
        })
        const { traces, remainder } = fitChannel(channel)
        expect(scaled.traces).toBe(traces)
        expect(scaled.remainder).toBeCloseTo(remainder * scale, 12)
      }),
      { seed: SEED },
    )
  })

  it('lets the rule govern that leaves least: the drilled hole, though the pad would let more through', () => {
    const hole: ClearanceRule = { rule: 'drill to copper', obstacleDiameter: um(125), clearance: um(150) }
    const channel = { span: um(500), width: um(75), traceGap: um(75), tolerance: TOLERANCE }
    const both = fitChannel({ ...channel, rules: [pad(um(250), um(75)), hole] })
    expect(both.governing.rule).toBe('drill to copper')
    expect(both.governing.clear).toBeCloseTo(um(75), 12)
    expect(both.tests.map(({ rule }) => rule)).toEqual(['trace to pad', 'drill to copper'])
    expect(fitChannel({ ...channel, rules: [pad(um(250), um(75))] }).governing.clear).toBeCloseTo(um(100), 12)
  })

  it('counts what misses by less than the tolerance, and not what misses by more', () => {
    const channel = {
      rules: [pad(um(500), um(100))],
      width: um(100),
      traceGap: um(100),
      tolerance: TOLERANCE,
    }
    expect(fitChannel({ ...channel, span: um(1000 - 0.4) }).traces).toBe(2)
    expect(fitChannel({ ...channel, span: um(1000 - 0.6) }).traces).toBe(1)
    expect(fitChannel({ ...channel, span: um(1000 - 0.4) }).remainder).toBeCloseTo(-um(0.4), 12)
  })

  it('keeps the gap to pads and the gap between traces apart', () => {
    const channel = { span: um(1000), rules: [pad(um(500), um(75))], width: um(100), tolerance: TOLERANCE }
    expect(fitChannel({ ...channel, traceGap: um(150) }).traces).toBe(2)
    expect(fitChannel({ ...channel, traceGap: um(151) }).traces).toBe(1)
  })

  it('gives nulls and a negative remainder where obstacles overlap', () => {
    const overlapping = fitChannel({
      span: um(400),
      rules: [pad(um(450), um(100))],
      width: um(75),
      traceGap: um(75),
      tolerance: TOLERANCE,
    })
    expect(overlapping).toMatchObject({ traces: 0, widestOne: null, widestTwo: null })
    expect(overlapping.remainder).toBeCloseTo(-um(325), 12)
  })

  it.each([
    { width: 0, traceGap: 0, tolerance: 0 },
    { width: NaN, traceGap: 0, tolerance: 0 },
    { width: 1e-4, traceGap: -1e-6, tolerance: 0 },
    { width: 1e-4, traceGap: 0, tolerance: NaN },
  ])('refuses %o', (wrong) => {
    expect(() => fitChannel({ span: 1e-3, rules: [pad(1e-4, 1e-4)], ...wrong })).toThrow(RangeError)
  })

  it('refuses a channel without a rule', () => {
    expect(() => fitChannel({ span: 1e-3, rules: [], width: 1e-4, traceGap: 0, tolerance: 0 })).toThrow(
      RangeError,
    )
  })
})
