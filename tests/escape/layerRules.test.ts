import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { channelsPerLayer } from '../../src/escape/channelsPerLayer.ts'
import {
  blindLayers,
  layerRules,
  rowsOverFour,
  signalsToChannels,
  throughLayers,
} from '../../src/escape/layerRules.ts'
import type { RuleInput } from '../../src/escape/layerRules.ts'
import { missedRows } from '../helpers/compareTable.ts'
import type { Comparison } from '../helpers/compareTable.ts'
import { publishedTables, rowsOf } from './publishedTable.ts'
import type { PublishedRow } from './publishedTable.ts'

const SEED = 20260303
const tables = publishedTables('layerCounts.json')

function compare(row: PublishedRow, column: string, actual: number): Comparison {
  return {
    label: `${row.source}, ${column}`,
    actual,
    expected: row.get(column),
    tolerance: row.tolerance(column),
  }
}

const input: RuleInput = {
  rows: 26,
  columns: 26,
  signals: 406,
  channels: 100,
  signalRows: 8,
  landTraces: 1,
  throughTraces: 1,
  blindTraces: 1,
  chosen: 'through',
  trace: 'class memory data',
}

describe('channelsPerLayer', () => {
  it('counts the gaps on four sides as UG1099 does', () => {
    const rows = rowsOf(tables, 'channels')
    expect(
      missedRows(
        rows.map((row) => compare(row, 'channels', channelsPerLayer(row.get('rows'), row.get('columns')))),
      ),
    ).toBe('')
  })

  it('gives the channels of the UG1099 table for the nearest square', () => {
    const rows = rowsOf(tables, 'signals to channels')
    expect(
      missedRows(
        rows.map((row) => {
          const side = Math.round(Math.sqrt(row.get('balls')))
          return compare(row, 'channels', channelsPerLayer(side, side))
        }),
      ),
    ).toBe('')
  })

  it('finds none on one ball, and two for each gap of a single row', () => {
    expect(channelsPerLayer(1, 1)).toBe(0)
    expect(channelsPerLayer(1, 7)).toBe(12)
  })

  it.each([
    [0, 5],
    [5, -1],
    [2.5, 3],
    [NaN, 3],
  ])('refuses a grid of %d × %d', (rows, columns) => {
    expect(() => channelsPerLayer(rows, columns)).toThrow(RangeError)
  })
})

describe('signals to channels', () => {
  it('rounded to nearest gives every printed row of UG1099', () => {
    const rows = rowsOf(tables, 'signals to channels').flatMap((row) => {
      const signals = row.get('signalShare') * row.get('balls')
      const at = (traces: number): number =>
        signalsToChannels(signals, row.get('channels'), traces)?.nearest ?? NaN
      return [compare(row, 'layersOneTrace', at(1)), compare(row, 'layersTwoTraces', at(2))]
    })
    expect(missedRows(rows)).toBe('')
  })

  it('rounded up does not: the printed table cannot have been rounded up', () => {
    const differs = rowsOf(tables, 'signals to channels').filter((row) => {
      const signals = row.get('signalShare') * row.get('balls')
      return signalsToChannels(signals, row.get('channels'), 1)?.up !== row.get('layersOneTrace')
    })
    expect(differs.length).toBeGreaterThan(0)
  })

  it('has no answer where no trace passes, and needs no layer where there is no signal', () => {
    expect(signalsToChannels(100, 50, 0)).toBeNull()
    expect(signalsToChannels(100, 0, 1)).toBeNull()
    expect(signalsToChannels(0, 50, 0)).toEqual({ unrounded: 0, up: 0, nearest: 0 })
  })

  it('does not round a whole ratio up for its last binary digit', () => {
    expect(signalsToChannels(0.3 * 10, 0.1 * 10, 1)?.up).toBe(3)
    expect(signalsToChannels(2.1, 0.7, 1)?.up).toBe(3)
  })
})

describe('the row rules', () => {
  it('need six layers for eight rows with through vias, and four with blind ones', () => {
    const rows = rowsOf(tables, 'rows').flatMap((row) => {
      const asked = [row.get('signalRows'), row.get('landTraces'), row.get('viaTraces')] as const
      return [
        compare(row, 'throughLayers', throughLayers(...asked)?.layers ?? NaN),
        compare(row, 'blindLayersDerived', blindLayers(...asked).layers),
      ]
    })
    expect(missedRows(rows)).toBe('')
  })

  it('free row after row as counted by hand', () => {
    const counts = fc.record({
      rows: fc.integer({ min: 0, max: 60 }),
      land: fc.integer({ min: 0, max: 4 }),
      via: fc.integer({ min: 0, max: 4 }),
    })
    fc.assert(
      fc.property(counts, ({ rows, land, via }) => {
        const layersBy = (freed: (layer: number) => number): number | null => {
          let left = rows
          for (let layer = 1; layer <= 200; layer += 1) {
            if (left <= 0) return layer - 1
            left -= freed(layer)
          }
          return null
        }
        const through = layersBy((layer) => (layer === 1 ? 1 + land : layer === 2 ? 1 + via : via))
        const blind = layersBy((layer) => (layer === 1 ? 1 + land : 1 + via))
        expect(throughLayers(rows, land, via)?.layers ?? null).toBe(through)
        expect(blindLayers(rows, land, via).layers).toBe(blind)
      }),
      { seed: SEED, numRuns: 500 },
    )
  })

  it('never need more layers with blind vias than with through ones', () => {
    for (let rows = 1; rows <= 20; rows += 1) {
      for (let traces = 0; traces <= 3; traces += 1) {
        const through = throughLayers(rows, traces, traces)?.layers ?? Infinity
        expect(blindLayers(rows, traces, traces).layers).toBeLessThanOrEqual(through)
      }
    }
  })
})

describe('layerRules', () => {
  it('sets every rule side by side, with unrounded figure, basis and source', () => {
    const rules = layerRules(input)
    expect(rules.map(({ id, technology, signalLayers }) => [id, technology, signalLayers])).toEqual([
      ['rows', 'through', 6],
      ['rows', 'blind', 4],
      ['signals to channels, up', 'any', 5],
      ['signals to channels, nearest', 'any', 4],
      ['rows over four', 'any', 7],
    ])
    expect(rules.map(({ unrounded }) => unrounded)).toEqual([6, 4, 4.06, 4.06, 6.5])
    for (const rule of rules) {
      expect(rule.basis).toMatch(/\d/)
      expect(rule.source.length).toBeGreaterThan(20)
    }
  })

  it('says so where no number of layers is enough', () => {
    const closed = layerRules({ ...input, throughTraces: 0, blindTraces: 0 })
    const [through, blind, up, nearest, quarter] = closed
    expect(through).toMatchObject({ signalLayers: null, unrounded: null })
    expect(through?.basis).toContain('no trace passes between the vias')
    // Two rows leave from the lands, and blind vias free one more a layer.
    expect(blind?.signalLayers).toBe(7)
    for (const rule of [up, nearest]) {
      expect(rule).toMatchObject({ signalLayers: null, unrounded: null })
      expect(rule?.basis).toContain('no number of layers is enough')
    }
    expect(quarter?.signalLayers).toBe(7)
  })

  it('still has an answer without traces where the outer rows are all there is', () => {
    const [through] = layerRules({ ...input, signalRows: 3, landTraces: 1, throughTraces: 0 })
    expect(through?.signalLayers).toBe(2)
  })

  it('spans the vendor examples that lie within its range, and says which do not', () => {
    const range = (balls: number): [number, number] => {
      const side = Math.round(Math.sqrt(balls))
      const channels = channelsPerLayer(side, side)
      const least = signalsToChannels(0.6 * balls, channels, 2)?.nearest ?? NaN
      return [least, rowsOverFour(side, side).layers]
    }
    for (const row of rowsOf(tables, 'examples within the range of the rules')) {
      const [least, most] = range(row.get('balls'))
      expect(row.get('signalLayers')).toBeGreaterThanOrEqual(least)
      expect(row.get('signalLayers')).toBeLessThanOrEqual(most)
    }
    for (const row of rowsOf(tables, 'examples outside the range of the rules')) {
      const [least, most] = range(row.get('balls'))
      expect(row.get('signalLayers') < least || row.get('signalLayers') > most).toBe(true)
    }
  })
})
