import { describe, expect, it } from 'vitest'
import type { LayerClaim } from '../../src/board/board.ts'
import { judgeClaim } from '../../src/escape/claims.ts'
import type { ClaimVerdict, EscapePlan, LayerRule } from '../../src/escape/escape.ts'
import { escapePackage } from '../../src/escape/escapePackage.ts'
import { boardOf, copperStack, packageOf, square } from './fixtures.ts'

function claim(technology: LayerClaim['technology'], signalLayers: number): LayerClaim {
  return { package: 'U1', technology, signalLayers, source: 'somebody' }
}

/** Verdicts on a full 20 × 20 array: one trace a channel, ten rows. */
function verdicts(claims: readonly LayerClaim[], layers: number): readonly ClaimVerdict[] {
  const pack = packageOf(square(20))
  return escapePackage(boardOf(pack, { claims, stackup: copperStack(layers) }), pack).claims
}

describe('judgeClaim', () => {
  it('confirms a claim that the plan keeps, with the layers it uses', () => {
    const [verdict] = verdicts([claim('through', 6)], 8)
    expect(verdict).toMatchObject({
      technology: 'through',
      claimed: 6,
      computed: 5,
      verdict: 'confirmed',
      source: 'somebody',
    })
    expect(verdict?.reason).toBe('the plan gets all 400 signal balls out on 5 signal layers; 6 were claimed')
  })

  it('refutes one layer too few with the balls that stay inside, and confirms the exact number', () => {
    const [tooFew, exact] = verdicts([claim('through', 4), claim('through', 5)], 8)
    expect(tooFew).toMatchObject({ computed: 5, verdict: 'refuted' })
    expect(tooFew?.reason).toMatch(
      /^on 4 signal layers the plan leaves \d+ signal balls of 400 inside, with 1 trace a channel on layer 5; it needs 5 signal layers$/,
    )
    expect(exact?.verdict).toBe('confirmed')
  })

  it('refutes a claim that the stackup has layers for, but whose balls stay inside, with a reason of the plan', () => {
    const [verdict] = verdicts([claim('through', 2)], 3)
    expect(verdict).toMatchObject({ computed: 8, verdict: 'refuted' })
    expect(verdict?.reason).toMatch(
      /inside on 2 signal layers, and \d+ on all 3; \d+,\d+: L3, the last of 3 layers left to it, lets out/,
    )
  })

  it('falls back on the row rule where the stackup has fewer layers than were claimed', () => {
    const [enough, tooFew] = verdicts([claim('through', 8), claim('through', 7)], 3)
    expect(enough).toMatchObject({ computed: 8, verdict: 'confirmed' })
    expect(enough?.reason).toContain('the stackup has only 3 signal layers')
    expect(enough?.reason).toContain(
      '10 rows of signals; the first layer frees 2, the second 2, every further one 1: 8 signal layers',
    )
    expect(tooFew).toMatchObject({ computed: 8, verdict: 'refuted' })
  })

  it('judges eight rows with one trace a channel by the row rule where no net is known: six layers, four if blind', () => {
    const pack = packageOf(square(16))
    const claims = [claim('through', 6), claim('through', 5), claim('blind', 4), claim('blind', 3)]
    const board = boardOf(pack, { nets: [], claims })
    const { claims: judged } = escapePackage(board, pack)
    expect(judged.map(({ computed, verdict }) => [computed, verdict])).toEqual([
      [6, 'confirmed'],
      [6, 'refuted'],
      [4, 'confirmed'],
      [4, 'refuted'],
    ])
    expect(judged[0]?.reason).toContain('no ball has a net, so nothing was planned')
  })

  it('refutes every claim where no number of layers is enough', () => {
    const plan: EscapePlan = {
      package: 'U1',
      technology: 'through',
      method: '',
      layers: [],
      routes: [],
      unescaped: [],
      supplies: [],
      dogBones: [],
      atLeastLayers: null,
      check: { compared: 0, faults: [] },
      assumed: [],
    }
    const rule: LayerRule = {
      id: 'rows',
      technology: 'through',
      tracesPerChannel: 0,
      basis: 'no trace passes',
      unrounded: null,
      signalLayers: null,
      source: '',
    }
    expect(judgeClaim(claim('through', 99), plan, [rule])).toMatchObject({
      computed: null,
      verdict: 'refuted',
    })
    expect(judgeClaim(claim('through', 99), plan, [])).toMatchObject({ computed: null, verdict: 'refuted' })
  })

  it('judges only the claims on the package', () => {
    expect(verdicts([{ ...claim('through', 6), package: 'U2' }], 4)).toEqual([])
  })
})
