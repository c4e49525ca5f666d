import { join } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { compareOutput } from '../../../src/cli/json/compareOutput.ts'
import { packageRoot } from '../../../src/cli/packageRoot.ts'
import { run } from '../testShell.ts'
import type { Recorded } from '../testShell.ts'

const SMALL = join(packageRoot(), 'tests/server/boards/small.yaml')
const TIGHT = join(packageRoot(), 'reference/boards/csfbga285-six-layer.yaml')

describe('narrows compare', () => {
  let small: Recorded
  let tight: Recorded

  beforeAll(async () => {
    small = await run(['compare', SMALL])
    tight = await run(['compare', TIGHT])
  }, 60_000)

  it('prints output of its published form, and ends with 0 where some way lets every net out', async () => {
    const { exit, out, err } = await run(['compare', SMALL, '--json', '--package', 'U1'])
    expect([exit, err]).toEqual([0, ''])
    const { comparisons } = compareOutput.parse(JSON.parse(out))
    expect(comparisons.map((each) => each.package)).toEqual(['U1'])
    expect(comparisons[0]?.rows.length).toBe(9)
  })

  it('ends with 1 where no way lets every net out', () => {
    expect([tight.exit, tight.err]).toEqual([1, ''])
    expect(tight.out).toContain('more than 3')
  })

  it('prints each way, its reasons and what was invented inside the page', () => {
    for (const { out } of [small, tight]) {
      expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100)
    }
    for (const words of [
      'as described',
      'cannot be built',
      'not money: common practice',
      'worst impedance',
    ]) {
      expect(small.out).toContain(words)
    }
    expect(tight.out).toMatch(/Assumed[\s\S]*invented via/)
  })

  it.each([
    [['compare', SMALL, '--package', 'U9'], 'a package of this board: U1'],
    [['compare', 'nowhere.yaml'], 'nowhere.yaml'],
  ])('ends %j with 2 and says why', async (args, words) => {
    const { exit, out, err } = await run(args)
    expect([exit, out]).toEqual([2, ''])
    expect(err).toContain(words)
  })
})
