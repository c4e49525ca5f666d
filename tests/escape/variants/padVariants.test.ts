import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Board } from '../../../src/board/board.ts'
import { viaOf } from '../../../src/board/lookup.ts'
import { leastLayers, layerBound, leastReach } from '../../../src/escape/layerBound.ts'
import { planJob } from '../../../src/escape/planJob.ts'
import type { PlanJob } from '../../../src/escape/planJob.ts'
import { innerPadsVariant, smallPadsVariant } from '../../../src/escape/variants/padVariants.ts'
import { ringsHold } from '../../../src/findings/viaChecks.ts'
import { packageOf, padsOf, um, via } from '../fixtures.ts'
import { described, laminated, MICROVIAS, packOf } from './fixtures.ts'

const SEED = 20261125

const jobOf = (board: Board): PlanJob => {
  const { pack, technology } = described(board)
  return planJob(board, pack, technology)
}

/** What every signal layer lets out at most with all nets waiting and all their vias standing. */
function mostOn(job: PlanJob): number[] {
  const states = job.pack.balls.map(() => ({ kind: 'tries' as const, asked: null }))
  return job.signalLayers.flatMap(
    (layer) => layerBound(job, layer, job.candidates, 0, leastReach(job, layer, states))?.atMost ?? [],
  )
}

/** Ball maps of three to seven rows and columns with signals, ground and missing balls. */
const drawing = fc
  .tuple(fc.integer({ min: 3, max: 7 }), fc.integer({ min: 3, max: 7 }))
  .chain(([rows, columns]) =>
    fc.array(
      fc.string({ unit: fc.constantFrom('s', 's', 's', 'g', '.'), minLength: columns, maxLength: columns }),
      {
        minLength: rows,
        maxLength: rows,
      },
    ),
  )

describe('pads of unconnected vias', () => {
  it('are removed where they are kept, and kept where they are removed', () => {
    const board = laminated(packageOf(['ss', 'ss']))
    const removed = innerPadsVariant(described(board))
    expect([removed.id, viaOf(removed.board, 'through').unconnectedInnerPads]).toEqual([
      'inner pads removed',
      'removed',
    ])
    const kept = innerPadsVariant(described(removed.board))
    expect([kept.id, kept.board]).toEqual(['inner pads kept', board])
  })

  it('are left where every layer of a via is joined', () => {
    const pack = packageOf(['ss', 'ss'], { via: 'laser 1' })
    const variant = innerPadsVariant(described(laminated(pack, { vias: MICROVIAS })))
    expect(variant.state).toBe('as described')
    expect(variant.change).not.toBe('')
  })

  // A smaller obstacle closes no gap: each gate of the cut is as wide or wider.
  it('never lower what a layer lets out at most, nor raise the least number of layers, by being removed', () => {
    fc.assert(
      fc.property(drawing, fc.integer({ min: 300, max: 560 }), (rows, pad) => {
        const pack = packageOf(rows)
        const vias = [via('through', { lastLayer: 10, padDiameters: padsOf(10, pad) })]
        const kept = jobOf(laminated(pack, { vias }))
        const removed = jobOf(innerPadsVariant(described(laminated(pack, { vias }))).board)
        const [before, after] = [mostOn(kept), mostOn(removed)]
        expect(after.length).toBeGreaterThanOrEqual(before.length)
        before.forEach((most, index) => {
          expect(after[index]).toBeGreaterThanOrEqual(most)
        })
        expect(leastLayers(removed) ?? Infinity).toBeLessThanOrEqual(leastLayers(kept) ?? Infinity)
      }),
      { seed: SEED, numRuns: 60 },
    )
  })
})

describe('the smallest via pads', () => {
  it('are the hole, two rings and two registrations wide', () => {
    // Invented fabricator of the fixtures: internal ring 25 um from the drilled 200 um, external 50 um from the
    // finished 150 um, registration 75 um: 200 + 2 (25 + 75) = 150 + 2 (50 + 75) = 400 um.
    const variant = smallPadsVariant(described(laminated(packageOf(['ss', 'ss']))))
    for (const pad of viaOf(variant.board, 'through').padDiameters) expect(pad).toBeCloseTo(um(400), 12)
    expect(variant.change).toContain('0.400 mm instead of 0.450 mm')
    expect(ringsHold(variant.board, viaOf(variant.board, 'through'))).toBe(true)
  })

  it('are the description where they are as small already', () => {
    const vias = [via('through', { lastLayer: 10, padDiameters: padsOf(10, 400) })]
    expect(smallPadsVariant(described(laminated(packageOf(['ss', 'ss']), { vias }))).state).toBe(
      'as described',
    )
  })

  it('never lower what a layer lets out at most', () => {
    fc.assert(
      fc.property(drawing, fc.integer({ min: 300, max: 560 }), (rows, pad) => {
        const vias = [via('through', { lastLayer: 10, padDiameters: padsOf(10, pad) })]
        const board = laminated(packageOf(rows), { vias })
        const variant = smallPadsVariant(described(board))
        expect(packOf(variant).balls).toEqual(board.packages[0]?.balls)
        mostOn(jobOf(board)).forEach((most, index) => {
          expect(mostOn(jobOf(variant.board))[index]).toBeGreaterThanOrEqual(most)
        })
      }),
      { seed: SEED, numRuns: 30 },
    )
  })
})
