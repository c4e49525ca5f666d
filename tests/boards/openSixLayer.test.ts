import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import type { LineImpedance } from '../../src/impedance/estimate.ts'
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
  readonly verdict: string
}

const board = await boardOf('boards/csfbga285-six-layer.yaml')
const rows = published.targets.map((row): Row => {
  const width = si(row.width, 'length')
  const gap = row.gap === null ? null : si(row.gap, 'length')
  const target = si(row.target, 'impedance')
  const reads = evaluateLine(board, {
    layer: row.layer,
    width,
    gap,
    coplanarGap: null,
    broadsideLayer: null,
  })
  const difference = reads.impedance / target - 1
  return {
    layer: row.layer,
    line: row.gap === null ? row.width : `${row.width} pair, gap ${row.gap}`,
    target,
    reads,
    verdict: `${formatOhmsWithBand(reads.impedance, reads.chosen.claimedError)} against ${formatOhms(target)}, ${formatPercent(difference)}`,
  }
})
const tolerance = si(published.tolerance, 'ratio')

/** What the published tolerance and the band of the formula together allow. */
function allowed({ target, reads }: Row): number {
  return target * tolerance + reads.impedance * reads.chosen.claimedError
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

  it.each(rows.filter((row) => row.layer !== 3))('close on outer layer $layer for $line: $verdict', (row) => {
    expect(Math.abs(row.reads.impedance - row.target)).toBeLessThanOrEqual(allowed(row))
  })

  // The note gives layer 3 the widths of the outer layers, although its lines lie between two planes.
  it.each(rows.filter((row) => row.layer === 3))('conflict on layer $layer for $line: $verdict', (row) => {
    expect(row.target - row.reads.impedance).toBeGreaterThan(allowed(row))
  })
})
