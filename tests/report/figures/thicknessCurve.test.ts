import { describe, expect, it } from 'vitest'
import type { ThicknessChoice } from '../../../src/dielectric/thicknessChoice.ts'
import { logLengthTicks } from '../../../src/report/figures/lengthTicks.ts'
import { thicknessCurve } from '../../../src/report/figures/thicknessCurve.ts'
import { numberOf, tagsOf } from '../markup.ts'

/** A wide trace far below its target: the curve runs flat along the axis. Invented. */
const curve = Array.from({ length: 24 }, (_, step) => {
  const thickness = 50e-6 * 12 ** (step / 23)
  return { thickness, impedance: 5 + 30 * (step / 23) ** 2, band: 0.01 }
})
const flat: ThicknessChoice = {
  layer: 1,
  netClass: null,
  stretch: 'main',
  width: 2e-3,
  gap: null,
  target: 250,
  dielectric: 'prepreg 1',
  present: { thickness: curve[2]?.thickness ?? NaN, impedance: curve[2]?.impedance ?? NaN },
  thickness: null,
  reached: null,
  reason: 'too wide',
  window: null,
  curve,
}

describe('the curve of a trace far from its target', () => {
  const svg = thicknessCurve({ id: 'curve', choice: flat, tolerance: 0.1, layerName: 'L1', unit: 'mm' })

  it('does not run through its own label', () => {
    const label = tagsOf(svg).find(
      ({ name, attributes }) => name === 'text' && attributes.get('font-weight') === 'bold',
    )
    const line = tagsOf(svg).find(
      ({ name, attributes }) =>
        name === 'path' &&
        attributes.get('fill') === 'none' &&
        (attributes.get('d') ?? '').split('L').length === flat.curve.length,
    )
    if (label === undefined || line === undefined) throw new Error('label or curve is missing')
    const [left, baseline] = [numberOf(label, 'x'), numberOf(label, 'y')]
    const beneath = (line.attributes.get('d') ?? '')
      .split(/[ML]/)
      .map((pair) => pair.split(/[ ,]/).map(Number))
      .filter(([x = NaN]) => x >= left && x <= left + 170)
    expect(beneath.length).toBeGreaterThan(3)
    // Letters reach some 3 units below their baseline.
    for (const [, y = NaN] of beneath) expect(y).toBeGreaterThan(baseline + 3)
  })
})

describe('the curve of a trace a little above its target', () => {
  it('does not have its label struck through by the line of the target', () => {
    const steep = curve.map((point, step) => ({ ...point, impedance: 45 + 4 * step }))
    const present = { thickness: steep[3]?.thickness ?? NaN, impedance: steep[3]?.impedance ?? NaN }
    for (let target = 44; target < 57; target += 0.5) {
      const svg = thicknessCurve({
        id: 'curve',
        choice: { ...flat, curve: steep, present, target },
        tolerance: 0.05,
        layerName: 'L1',
        unit: 'mm',
      })
      const label = tagsOf(svg).find(
        ({ name, attributes }) => name === 'text' && attributes.get('font-weight') === 'bold',
      )
      const level = tagsOf(svg).find(
        ({ attributes }) => attributes.get('stroke-width') === '1.5' && attributes.get('fill') === 'none',
      )
      const [, height = NaN] = (level?.attributes.get('d') ?? '').slice(1).split(/[ L]/).map(Number)
      // Letters of 12 units stand some 9 above their baseline and 3 below it.
      const baseline = numberOf(label, 'y')
      expect(height < baseline - 9 || height > baseline + 3, `target ${target}: ${height}, ${baseline}`).toBe(
        true,
      )
    }
  })
})

describe('the ticks of a logarithmic axis', () => {
  it('stand at round numbers of the unit that is shown', () => {
    expect(logLengthTicks(51e-6, 420e-6, 'mm').map((tick) => Number((tick * 1e3).toFixed(6)))).toEqual([
      0.06, 0.08, 0.1, 0.15, 0.2, 0.3, 0.4,
    ])
    // 1 mil is exactly 25.4 um.
    expect(logLengthTicks(2.1e-5, 1.3e-4, 'mil').map((tick) => Number((tick / 25.4e-6).toFixed(6)))).toEqual([
      1, 1.5, 2, 3, 4, 5,
    ])
  })
})
