import { describe, expect, it } from 'vitest'
import { byPackageAndSeverity, folded, notesTogether, type Weighed } from '../../src/findings/folded.ts'
import { metres } from '../../src/findings/measure.ts'

function weighed(
  name: string,
  weight: number,
  alike: string[] = [],
  severity: 'note' | 'error' = 'note',
): Weighed {
  return {
    finding: {
      code: 'neck-off-target',
      severity,
      subject: { kind: 'class', name, layer: 3, package: 'U1', alike },
      measured: metres('m', weight),
      limit: metres('l', 1),
      limitSource: 's',
      details: [],
      assumed: [],
    },
    remedies: () => [{ action: `help ${name}`, value: metres('v', 1), result: metres('r', 1) }],
    weight,
    name: `class ${name}`,
  }
}

describe('folding', () => {
  it('keeps the heaviest, its remedies, and the names of the others', () => {
    const [finding, ...more] = folded(
      [weighed('a', 1), weighed('b', 3), weighed('c', 2)],
      byPackageAndSeverity,
    )
    expect(more).toEqual([])
    expect(finding?.subject).toMatchObject({ name: 'b', alike: ['class a', 'class c'] })
    expect(finding?.remedies.map(({ action }) => action)).toEqual(['help b'])
  })

  it('says of another class on which further layers it is', () => {
    const [finding] = folded(
      [weighed('a', 2, ['layer 6']), weighed('b', 1, ['layer 6', 'DQ0'])],
      byPackageAndSeverity,
    )
    expect(finding?.subject.alike).toEqual(['layer 6', 'class b', 'class b on layer 6', 'DQ0'])
  })

  it('asks no remedies of the lighter ones', () => {
    const light = {
      ...weighed('a', 1),
      remedies: () => {
        throw new Error('asked')
      },
    }
    expect(folded([light, weighed('b', 2)], byPackageAndSeverity)).toHaveLength(1)
  })

  it('of notes alone leaves errors apart', () => {
    const found = folded(
      [weighed('a', 1), weighed('b', 2), weighed('c', 3, [], 'error'), weighed('d', 4, [], 'error')],
      notesTogether,
    )
    expect(found.map(({ subject }) => subject.name)).toEqual(['b', 'c', 'd'])
  })
})
