import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import type { LineImpedance } from '../../src/impedance/estimate.ts'
import { verdictImpedance } from '../../src/impedance/estimateLine.ts'
import { fieldModes } from '../../src/impedance/field/fieldLine.ts'
import { evaluateLine } from '../../src/line.ts'
import { formatOhms, formatOhmsWithBand, formatPercent } from '../../src/units/format.ts'
import { parseQuantity, type Dimension } from '../../src/units/parse.ts'
import { boardOf, REFERENCE } from './referenceBoards.ts'

// OrangeCrab r0.2.1 fabrication notes, orangecrab-fpga/orangecrab-hardware @ c511d569 (see the file).
const published = z
  .object({
    tolerance: z.string(),
    stackup: z.object({
      layers: z.array(z.object({ copper: z.string(), prepregBelow: z.string().nullable() })),
    }),
    targets: z.array(
      z.object({ layer: z.number(), width: z.string(), gap: z.string().nullable(), target: z.string() }),
    ),
  })
  .parse(JSON.parse(readFileSync(join(REFERENCE, 'published/openSixLayerTargets.json'), 'utf8')))

function si(text: string, dimension: Dimension): number {
  const reading = parseQuantity(text, dimension, null)
  if (!reading.ok) throw new Error(`${text}: ${reading.found}`)
  return reading.value
}

interface Row {
  readonly layer: number
  readonly line: string
  readonly target: number
  readonly reads: LineImpedance
  /** By boundary elements: a second route to the same number. */
  readonly field: number
  readonly verdict: string
}

/** Every permittivity is assumed at the frequency of the analysis, so it needs no carrying. */
function fieldImpedance({ section }: LineImpedance): number {
  const { modes } = fieldModes(section, ({ permittivity }) => permittivity.relative, { levels: 6, order: 5 })
  return verdictImpedance(modes)
}

const board = await boardOf('boards/csfbga285-six-layer.yaml')
const tolerance = si(published.tolerance, 'ratio')
const rows = published.targets.map((row): Row => {
  const target = si(row.target, 'impedance')
  const reads = evaluateLine(board, {
    layer: row.layer,
    width: si(row.width, 'length'),
    gap: row.gap === null ? null : si(row.gap, 'length'),
    coplanarGap: null,
    broadsideLayer: null,
  })
  const closed = formatOhmsWithBand(reads.impedance, reads.chosen.claimedError)
  const field = fieldImpedance(reads)
  const off = formatPercent(field / target - 1)
  return {
    layer: row.layer,
    line: row.gap === null ? row.width : `${row.width} pair, gap ${row.gap}`,
    target,
    reads,
    field,
    verdict: `${closed} by closed form, ${formatOhms(field)} by field solution, against ${formatOhms(target)}: ${off}`,
  }
})
const onLayer3 = rows.filter((row) => row.layer === 3)

/** The row with its title, which prints value, target and difference. */
function titled(some: readonly Row[]): [string, Row][] {
  return some.map((row) => [`layer ${row.layer}, ${row.line}: ${row.verdict}`, row])
}

describe('the targets of an open six-layer board, on its stackup with assumed permittivity', () => {
  it('rest on the published thicknesses', () => {
    const copper = board.stackup.copper.map((layer) => layer.thickness)
    expect(copper).toEqual(published.stackup.layers.map((layer) => si(layer.copper, 'length')))
    const prepregs = board.stackup.layers.flatMap((layer) =>
      layer.kind === 'dielectric' && layer.type === 'prepreg' ? [layer.thickness] : [],
    )
    const expected = published.stackup.layers.flatMap((layer) => layer.prepregBelow ?? [])
    expect(prepregs).toEqual(expected.map((text) => si(text, 'length')))
  })

  it('rest on permittivity that is marked assumed on every dielectric', () => {
    const assumed = board.assumptions.map(({ quantity }) => quantity)
    for (const layer of board.stackup.layers.filter(({ kind }) => kind === 'dielectric')) {
      expect(
        assumed.filter((quantity) => quantity === `relative permittivity of ${layer.name}`),
      ).toHaveLength(1)
    }
  })

  it.each(titled(rows))('read alike by both routes on %s', (_title, { reads, field }) => {
    expect(Math.abs(reads.impedance / field - 1)).toBeLessThanOrEqual(reads.chosen.claimedError)
  })

  it.each(titled(rows.filter((row) => row.layer !== 3)))('close on %s', (_title, row) => {
    const allowed = row.target * tolerance + row.reads.impedance * row.reads.chosen.claimedError
    expect(Math.abs(row.reads.impedance - row.target)).toBeLessThanOrEqual(allowed)
    expect(Math.abs(row.field - row.target)).toBeLessThanOrEqual(row.target * tolerance)
  })

  // The note gives layer 3 the widths of the outer layers, although its lines lie inside the laminate: with one
  // permittivity for all layers they come out low. Shown as conflicts; nothing is tuned to make them meet.
  it.each(titled(onLayer3))('conflict on %s', (_title, { target, field }) => {
    expect(field).toBeLessThan(target * (1 - tolerance))
  })

  // By so much that the closed form sees it too. The single trace is at the edge: 0.9 % beyond the tolerance by
  // field solution, 0.3 % inside by closed form, whose band is wider than that.
  it.each(titled(onLayer3.filter(({ reads }) => reads.section.arrangement === 'edge pair')))(
    'conflict by closed form too on %s',
    (_title, { target, reads }) => {
      expect(reads.impedance).toBeLessThan(target * (1 - tolerance))
    },
  )
})
