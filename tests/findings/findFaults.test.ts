import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { findFaults } from '../../src/findings/findFaults.ts'
import { FINDING_CODES } from '../../src/findings/finding.ts'
import type { Finding } from '../../src/findings/finding.ts'
import { exampleBoard } from '../board/exampleBoard.ts'
import { gaussian, um, withClass } from '../signal/fixtures.ts'
import { contextOf, throughVia, withFabrication, withPads, withVia } from './fixtures.ts'

const base = await exampleBoard()
/** Something of everything. */
const faulty = withFabrication(
  withVia(withClass(base, 'data', { target: 40, edge: gaussian(20), reflectionLimit: 0.01 }), {
    ...withPads(throughVia(base), um(210)),
    antipadDiameter: um(740),
  }),
  {
    aspectRatio: { drilled: 5, microvia: 0.8 },
    annularRing: { ipcClass: 3, external: um(50), internal: um(25), source: 't' },
  },
)
const rules = readdirSync(join(import.meta.dirname, '../../src/findings/rules'))
const kebab = (file: string): string =>
  file.replace('.ts', '').replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)

describe('the faults of a board', () => {
  const found = findFaults(contextOf(faulty))

  it('come errors first, then warnings, then notes', () => {
    const ranks = found.map(({ severity }) => ['error', 'warning', 'note'].indexOf(severity))
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b))
    expect(new Set(ranks).size).toBe(3)
  })

  it('are the same each time', () => {
    expect(findFaults(contextOf(faulty))).toEqual(found)
  })

  it('have figures that print', () => {
    const measures = found.flatMap((finding: Finding) => [
      finding.measured,
      finding.limit,
      ...finding.details,
      ...finding.remedies.flatMap(({ value, result }) => [value, result]),
    ])
    expect(
      measures
        .filter(({ value, what }) => !Number.isFinite(value) || what === '')
        .filter(({ unit }) => unit !== 'text'),
    ).toEqual([])
  })

  it('name their code and the source of their limit', () => {
    for (const { code, limitSource } of found) {
      expect(FINDING_CODES).toContain(code)
      expect(limitSource).not.toBe('')
    }
  })
})

describe('the rules', () => {
  it('are one file for each code, named like it', () => {
    expect(rules.map(kebab).sort((a, b) => a.localeCompare(b))).toEqual(
      [...FINDING_CODES].sort((a, b) => a.localeCompare(b)),
    )
  })
})
