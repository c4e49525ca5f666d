import { existsSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

/** Folder that holds package.json, views/ and reference/, whether the sources run or the bundle in build/. */
export function packageRoot(from: string = dirname(fileURLToPath(import.meta.url))): string {
  if (existsSync(join(from, 'package.json'))) return from
  const parent = dirname(from)
  if (parent === from) throw new Error('the package was moved apart: no package.json above its code')
  return packageRoot(parent)
}

/** Version of the tool, as in package.json. */
export function toolVersion(): string {
  const { version } = JSON.parse(readFileSync(join(packageRoot(), 'package.json'), 'utf8')) as {
    version: string
  }
  return version
}
