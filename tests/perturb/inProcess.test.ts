import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { compileTest } from './inProcess.ts'

const root = mkdtempSync(join(tmpdir(), 'perturb-'))
writeFileSync(join(root, 'half.ts'), 'export const half = (x: number): number => 0.5 * x + 0.25 * 0 * x\n')
writeFileSync(
  join(root, 'half.test.ts'),
  [
    "import { describe, expect, it } from 'vitest'",
    "import { half } from './half.ts'",
    "describe('half', () => {",
    "  it.each([[2, 1], [4, 2]])('of %s is %s', (x, y) => { expect(half(x)).toBe(y) })",
    "  it('waits', async () => { await Promise.resolve(); expect(half(0)).toBe(0) })",
    '})',
  ].join('\n'),
)
afterAll(() => {
  rmSync(root, { recursive: true })
})

describe('a test compiled for perturbing', () => {
  it('passes as it is, fails for a coefficient that matters and passes for one that does not', async () => {
    const { run, inputs } = await compileTest(root, 'half.test.ts', 'half.ts')
    expect(inputs).toContain('half.ts')
    expect(await run(null, 1.01)).toBeNull()
    expect(await run(0, 1.01)).toContain('half > of %s is %s')
    expect(await run(1, 1.01)).toBeNull()
  })
})
