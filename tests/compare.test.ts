import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Board } from '../src/board/board.ts'
import { compareTechnologies } from '../src/compare.ts'
import type { Outcome, TechnologyRow } from '../src/compare.ts'
import { escapesOf } from '../src/escapes.ts'
import { review } from '../src/review.ts'
import { boardOf as referenceBoard } from './boards/referenceBoards.ts'
import { boardOf, packageOf, padsOf, square, via } from './escape/fixtures.ts'
import { laminated } from './escape/variants/fixtures.ts'

function rowsOf(board: Board): readonly TechnologyRow[] {
  return compareTechnologies(board, null)[0]?.rows ?? []
}

function outcomeOf(rows: readonly TechnologyRow[], id: TechnologyRow['id']): Outcome {
  const outcome = rows.find((row) => row.id === id)?.outcome ?? null
  if (outcome === null) throw new Error(`${id} has no outcome`)
  return outcome
}

const WAYS: readonly TechnologyRow['id'][] = [
  'as described',
  'through vias',
  'blind vias',
  'microvias in the lands',
  'inner pads removed',
  'smallest via pads',
  'finest traces',
  'one trace per channel',
  'two traces per channel',
]

describe('technologies compared', () => {
  const board = laminated(packageOf(square(8, (row, column) => ((row + column) % 5 === 0 ? 'g' : 's'))))
  const rows = rowsOf(board)

  it('are rows of their own in one order, whether or not they can be built', () => {
    expect(rows.map(({ id }) => id)).toEqual(WAYS)
  })

  it('each carry their figures, or the reason why there are none', () => {
    for (const { id, change, state, outcome } of rows) {
      expect([id, change.length > 10]).toEqual([id, true])
      expect([id, outcome === null]).toEqual([id, state === 'cannot be built'])
      if (outcome === null) continue
      expect(outcome.rules.map((rule) => rule.id)).toEqual([
        'rows',
        'signals to channels, up',
        'signals to channels, nearest',
        'rows over four',
      ])
      expect(outcome.netsOut + outcome.unescaped).toBe(board.nets.length)
      expect(outcome.longestNeck?.length).toBeGreaterThan(0)
      expect(outcome.worstNeck?.impedance).toBeGreaterThan(0)
      expect(outcome.faults).toBe(0)
      expect(outcome.whyNot === null).toBe(outcome.unescaped === 0)
      expect(outcome.cost === null).toBe(outcome.unescaped > 0)
      expect(outcome.atLeastLayers ?? 0).toBeLessThanOrEqual(
        outcome.unescaped === 0 ? outcome.signalLayers : Infinity,
      )
    }
  })

  it('say of the description what its own plan says', () => {
    const [escape] = escapesOf(board)
    if (escape === undefined) throw new Error('no package')
    const { plans, chosen, rules } = escape
    const plan = plans.find(({ technology }) => technology === chosen)
    const outcome = outcomeOf(rows, 'as described')
    expect(outcome.netsOut).toBe(plan?.routes.length)
    expect(outcome.longestNeck?.length).toBe(
      Math.max(...(plan?.routes.map(({ neckLength }) => neckLength) ?? [])),
    )
    expect(rules).toEqual(expect.arrayContaining([...outcome.rules]))
  })

  it('rank only ways that let every net out, from 1', () => {
    const ranks = rows.flatMap(({ outcome }) => outcome?.cost?.rank ?? [])
    expect(Math.min(...ranks)).toBe(1)
    const twins = rows.filter(({ state }) => state === 'as described')
    expect(twins.length).toBeGreaterThan(1)
    expect(new Set(twins.map(({ outcome }) => outcome)).size).toBe(1)
  })

  it('say more than the layers that there are where nets stay inside on all of them', () => {
    const crowded = packageOf(square(12), { landDiameter: 500e-6, maskOpening: 510e-6 })
    const closed = rowsOf(boardOf(crowded, { vias: [via('through', { padDiameters: padsOf(12, 600) })] }))
    const outcome = outcomeOf(closed, 'as described')
    expect(outcome.unescaped).toBeGreaterThan(0)
    expect(outcome.layersNeeded).toMatch(/^(more than 12|no number is enough)$/)
    expect(outcome.cost).toBeNull()
    expect(outcome.whyNot).not.toBe('')
  })

  it('answer for any array, however little can be built on it', () => {
    const drawn = fc.array(
      fc.string({ unit: fc.constantFrom('s', 'g', 'u', '.'), minLength: 4, maxLength: 4 }),
      {
        minLength: 1,
        maxLength: 4,
      },
    )
    const size = (min: number, max: number): fc.Arbitrary<number> =>
      fc.integer({ min, max }).map((value) => value * 1e-6)
    fc.assert(
      fc.property(
        drawn,
        fc.record({ pitch: size(250, 1000), land: size(150, 900), pad: size(210, 1200) }),
        fc.constantFrom('dog-bone' as const, 'in pad' as const),
        fc.constantFrom('top' as const, 'bottom' as const),
        (drawing, { pitch, land, pad }, viaPlacement, side) => {
          const pack = packageOf(drawing, {
            pitch: { x: pitch, y: pitch },
            landDiameter: land,
            viaPlacement,
            placement: { origin: { x: 0, y: 0 }, side, rotationDegrees: 0 },
          })
          const vias = [via('through', { lastLayer: 10, padDiameters: padsOf(10, pad * 1e6) })]
          const answered = rowsOf(laminated(pack, { vias }))
          expect(answered.map(({ id }) => id)).toEqual(WAYS)
          for (const { outcome, change } of answered) {
            expect(change).not.toMatch(/NaN|Infinity|undefined/)
            // Lands or pads that touch as they are described are shorted whatever is planned.
            expect(Math.max(land, pad) < pitch ? (outcome?.faults ?? 0) : 0).toBe(0)
          }
        },
      ),
      { seed: 20261125, numRuns: 40 },
    )
  }, 60_000)

  it('knows no package but those of the board', () => {
    expect(() => compareTechnologies(board, 'U9')).toThrow(RangeError)
  })
})

describe('technologies of the demonstration boards', () => {
  it('find the longest necks that the review finds, those with run-ons to main routes too', async () => {
    const board = await referenceBoard('demo/hydrophone-recorder.yaml')
    const escapes = escapesOf(board)
    // So that the longest neck of the bare plan is shorter.
    const mains = escapes.find(({ package: name }) => name === 'U2')?.mains ?? []
    expect(mains.some(({ runOn }) => runOn.length > 0)).toBe(true)
    for (const comparison of compareTechnologies(board, 'U2')) {
      const escape = escapes.find(({ package: name }) => name === comparison.package)
      const longest = (technology: string): number => {
        const plan = escape?.plans.find((each) => each.technology === technology)
        return Math.max(...(plan?.routes.map(({ neckLength }) => neckLength) ?? []))
      }
      const found = (id: TechnologyRow['id']): number =>
        outcomeOf(comparison.rows, id).longestNeck?.length ?? NaN
      expect(found('as described')).toBe(longest(escape?.chosen ?? ''))
      expect(found('through vias')).toBe(longest('through'))
    }
  }, 30_000)

  it('find the worst neck that the review finds, on the board as described', async () => {
    const board = await referenceBoard('demo/reef-camera-hdi.yaml')
    const { signals } = review(board)
    const worst = outcomeOf(rowsOf(board), 'as described').worstNeck
    const off = signals.flatMap((signal) => {
      const netClass = board.classes.find(({ name }) => name === signal.class)
      return signal.ends.flatMap((end) => {
        if (netClass === undefined) return []
        return Math.abs(end.neckImpedance - netClass.target) / (netClass.tolerance * netClass.target)
      })
    })
    expect(off.length).toBeGreaterThan(50)
    expect(Math.abs(worst?.tolerances ?? NaN)).toBeCloseTo(Math.max(...off), 9)
  }, 30_000)
})
