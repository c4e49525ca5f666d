import { describe, expect, it } from 'vitest'
import type { Board } from '../../src/board/board.ts'
import { supplyVias } from '../../src/escape/supplyVias.ts'
import { viaChains } from '../../src/escape/viaChain.ts'
import { copper, dielectric, plane, stackup } from '../helpers/stackup.ts'
import { boardOf, packageOf, via } from './fixtures.ts'

const pack = packageOf(['sgpu'])
const layers = stackup(
  copper('L1'),
  dielectric('one', 100, 3.6),
  plane('L2'),
  dielectric('two', 100, 3.6),
  copper('L3'),
  dielectric('three', 100, 3.6),
  plane('L4', 'VDD'),
)
const micro = via('micro', { kind: 'microvia', lastLayer: 2 })
const deep = via('deep', { kind: 'blind', lastLayer: 4 })

function namesFor(technology: 'through' | 'blind', vias: Board['vias'], change = pack): (string | null)[] {
  const board = boardOf(change, { stackup: layers, vias })
  return supplyVias(board, change, technology, viaChains(board, change, technology)).map(
    (chain) => chain?.name ?? null,
  )
}

describe('supplyVias', () => {
  it('drills a through hole under power and ground, and nothing under signals and unused balls', () => {
    expect(namesFor('through', [via('through', { lastLayer: 4 })])).toEqual([
      null,
      'through',
      'through',
      null,
    ])
  })

  it('ends blind vias on the nearest plane of the net', () => {
    expect(namesFor('blind', [micro, deep])).toEqual([null, 'micro', 'deep', null])
  })

  it('goes as deep as it can where no plane carries the net', () => {
    expect(namesFor('blind', [micro])).toEqual([null, 'micro', 'micro', null])
    const other = {
      ...pack,
      balls: pack.balls.map((ball) => (ball.use === 'ground' ? { ...ball, net: 'VSS' } : ball)),
    }
    expect(namesFor('blind', [micro, deep], other)).toEqual([null, 'deep', 'deep', null])
  })

  it('takes a ground ball without a net to a plane of the package’s ground', () => {
    const [signal, ground, power, unused] = pack.balls
    if (!signal || !ground || !power || !unused) throw new RangeError('the drawing has four balls')
    const nameless = { ...ground, name: 'extra', row: 1, net: null }
    const change = { ...pack, rows: 2, balls: [signal, ground, power, nameless] }
    expect(namesFor('blind', [micro, deep], change)).toEqual([null, 'micro', 'deep', 'micro'])
  })

  it('leaves every ball without a via where none is described', () => {
    expect(namesFor('through', [])).toEqual([null, null, null, null])
  })
})
