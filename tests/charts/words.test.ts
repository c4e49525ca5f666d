import { readdirSync, readFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { describe, expect, it } from 'vitest'

const FOLDER = resolve(import.meta.dirname, '../../src/charts')
const DOMAIN =
  /\b(impedance|ohms?|traces?|vias?|balls?|lands?|package|stackup|dielectric|copper|necks?|channel|reflection|antipad)\b/i

describe('the chart kit', () => {
  it.each(readdirSync(FOLDER))('%s knows nothing of boards', (file) => {
    const found = DOMAIN.exec(readFileSync(join(FOLDER, file), 'utf8'))
    expect(found?.[0] ?? null).toBeNull()
  })

  it.each(readdirSync(FOLDER))('%s touches no document of a browser', (file) => {
    expect(readFileSync(join(FOLDER, file), 'utf8')).not.toMatch(/\b(document|window|createElement)\b\s*[.(]/)
  })
})
