import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { packageRoot, toolVersion } from '../../src/cli/packageRoot.ts'

describe('packageRoot', () => {
  it('is found from the sources and from the bundle', () => {
    const root = packageRoot()
    expect(existsSync(join(root, 'reference'))).toBe(true)
    expect(packageRoot(join(root, 'build'))).toBe(root)
    expect(packageRoot(join(root, 'src/cli'))).toBe(root)
  })

  it('gives the version of the tool', () => {
    const text = readFileSync(join(packageRoot(), 'package.json'), 'utf8')
    expect(text).toContain(`"version": "${toolVersion()}"`)
  })
})
