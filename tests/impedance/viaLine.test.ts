import { describe, expect, it } from 'vitest'
import type { Board } from '../../src/board/board.ts'
import { returnInductance } from '../../src/impedance/returnInductance.ts'
import { viaCapacitance, viaLine, type ViaLine } from '../../src/impedance/viaLine.ts'
import { viaTravel } from '../../src/routes/viaTravel.ts'
import type { BarrelRequest } from '../../src/section/barrelSection.ts'
import { exampleBoard } from '../board/exampleBoard.ts'
import { via } from '../escape/fixtures.ts'
import { copper, dielectric, plane, stackup } from '../helpers/stackup.ts'
import { barrelReferences, type BarrelReference } from '../helpers/viaReferences.ts'

const base = await exampleBoard()
const [through] = base.vias
if (through === undefined) throw new Error('no via')
/** Of one return 0.8 mm away. */
const inductance = returnInductance(
  { signal: { x: 0, y: 0 }, partner: null, returns: [{ x: 0.8e-3, y: 0 }] },
  0.1e-3,
)

function lineOf(
  board: Board,
  change: Partial<BarrelRequest> = {},
  { isPair = false, perMetre = inductance } = {},
): ViaLine {
  const request = { holes: [through ?? via('none')], landLayer: 1, exitLayer: 3, land: null, ...change }
  const [first] = request.holes
  const { depth, stub } = viaTravel(board.stackup, first ?? via('none'), request.landLayer, request.exitLayer)
  const loop = { inductance: perMetre, isPair, assumed: [] }
  return viaLine(viaCapacitance(board, request), { through: depth, hanging: stub }, loop)
}

/** Capacitance and inductance of a lossless line, by its delay and impedance: t/Z and Z t. */
const capacitanceOf = ({ impedance, delay }: { impedance: number; delay: number }): number =>
  delay / impedance
const inductanceOf = ({ impedance, delay }: { impedance: number; delay: number }): number => delay * impedance

describe('a via as a line', () => {
  const line = lineOf(base)

  it('has all of its capacitance in what the signal runs through and what hangs', () => {
    expect(capacitanceOf(line) + capacitanceOf(line.hanging)).toBeCloseTo(line.capacitance, 24)
    expect(capacitanceOf(line.hanging)).toBeCloseTo(line.hanging.capacitance, 24)
    expect(capacitanceOf(line)).toBeGreaterThan(0.1 * line.capacitance)
    expect(line.hanging.capacitance).toBeGreaterThan(0.1 * line.capacitance)
  })

  it('has the inductance of its length between the middles of copper', () => {
    // L1 to L3: 20 + 75 + 15 + 100 + 7.5 um; L3 to L8: 7.5 + 150 + 30 + 200 + 30 + 150 + 15 + 100 + 15 + 75 + 20 um.
    expect(inductanceOf(line) / (inductance * 217.5e-6)).toBeCloseTo(1, 9)
    expect(inductanceOf(line.hanging) / (inductance * 792.5e-6)).toBeCloseTo(1, 9)
    expect(line.inductance).toBe(inductance)
  })

  it('turns with its inductance alone: twice of it, √2 of impedance and delay', () => {
    const twice = lineOf(base, {}, { perMetre: 2 * inductance })
    expect(twice.impedance / line.impedance).toBeCloseTo(Math.SQRT2, 12)
    expect(twice.hanging.delay / line.hanging.delay).toBeCloseTo(Math.SQRT2, 12)
    expect(twice.capacitance).toBe(line.capacitance)
  })

  it('has an impedance and a delay as barrels of boards have them', () => {
    // Common practice, no source: 20 to 80 ohm, and delays above that of light in the dielectric, for pads load it.
    expect(line.impedance).toBeGreaterThan(20)
    expect(line.impedance).toBeLessThan(80)
    expect(line.delay).toBeGreaterThan((217.5e-6 * Math.sqrt(3.6)) / 299_792_458)
  })

  it('of a pair takes half of the capacitance between its barrels, and the inductance of the loop', () => {
    const pair = lineOf(base, {}, { isPair: true, perMetre: 1.9 * inductance })
    expect(capacitanceOf(pair)).toBeCloseTo(capacitanceOf(line) / 2, 24)
    expect(capacitanceOf(pair.hanging)).toBeCloseTo(capacitanceOf(line.hanging) / 2, 24)
    expect(inductanceOf(pair)).toBeCloseTo(1.9 * inductanceOf(line), 18)
    // What is told of one barrel stays that of one.
    expect([pair.capacitance, pair.hanging.capacitance]).toEqual([line.capacitance, line.hanging.capacitance])
  })

  it('is twice as high and as slow for two barrels that do not see one another', () => {
    const pair = lineOf(base, {}, { isPair: true, perMetre: 2 * inductance })
    expect(pair.impedance / line.impedance).toBeCloseTo(2, 12)
    expect(pair.delay / line.delay).toBeCloseTo(1, 12)
  })

  it('is the same from above and from below in a stackup that is', () => {
    const turned = lineOf(base, { landLayer: 8, exitLayer: 6 })
    expect(turned.impedance / line.impedance).toBeCloseTo(1, 6)
    expect(turned.hanging.delay / line.hanging.delay).toBeCloseTo(1, 6)
  })

  it('runs through more the deeper the net leaves, and hangs less', () => {
    const deeper = lineOf(base, { exitLayer: 6 })
    expect(deeper.delay).toBeGreaterThan(line.delay)
    expect(deeper.hanging.capacitance).toBeLessThan(line.hanging.capacitance)
  })

  it('only hangs where the net leaves on the layer of its land', () => {
    const hanging = lineOf(base, { exitLayer: 1 })
    expect(hanging.delay).toBe(0)
    expect(hanging.impedance).toBe(hanging.hanging.impedance)
    expect(hanging.hanging.capacitance).toBe(hanging.capacitance)
    expect(inductanceOf(hanging.hanging) / (inductance * 1010e-6)).toBeCloseTo(1, 9)
  })

  it('has a pad that hangs where the hole ends on the exit layer, with the impedance of the barrel', () => {
    const blind = { ...through, lastLayer: 3, kind: 'blind' as const, padDiameters: [420e-6, 420e-6, 420e-6] }
    const ending = lineOf(base, { holes: [blind] })
    expect(ending.hanging.impedance).toBe(ending.impedance)
    expect(capacitanceOf(ending.hanging)).toBeCloseTo(ending.hanging.capacitance, 24)
    expect(ending.hanging.capacitance).toBeGreaterThan(0)
    expect(capacitanceOf(ending) + capacitanceOf(ending.hanging)).toBeCloseTo(ending.capacitance, 24)
  })

  it('with a land wider than its pad has more capacitance in the way of the signal', () => {
    const wide = lineOf(base, { land: 600e-6 })
    expect(capacitanceOf(wide)).toBeGreaterThan(1.05 * capacitanceOf(line))
    expect(wide.hanging.capacitance / line.hanging.capacitance).toBeCloseTo(1, 1)
  })

  it('is refused where it is drilled back to the land that the net leaves on: no impedance is that of no length', () => {
    const backdrill = { diameter: 0.4e-3, from: 'bottom' as const, residualStub: 0 }
    expect(() => lineOf(base, { holes: [{ ...through, backdrill }], exitLayer: 1 })).toThrow(/without length/)
  })

  it('is refused where the stackup has no such layer, and where pads do not fit in their openings', () => {
    expect(() => lineOf(base, { holes: [via('deep', { lastLayer: 12 })] })).toThrow(RangeError)
    const tight = { ...through, antipadDiameter: 400e-6, unconnectedInnerPads: 'kept' as const }
    expect(() => lineOf(base, { holes: [tight] })).toThrow(/does not clear/)
  })
})

/** A case of the table as board and via, where a stackup says it: alike openings, both ends outside, no mask. */
function boardOf(row: BarrelReference): { board: Board; holes: BarrelRequest['holes']; pads: number[] } {
  const coppers = row.layers.filter((layer) => layer.kind === 'copper')
  const opening = coppers.find(({ openingRadius }) => openingRadius !== null)?.openingRadius ?? NaN
  const pads = coppers.flatMap(({ padRadius }, index) => (padRadius === null ? [] : [index + 1]))
  const signals = coppers.filter(({ role }) => role === 'signal').length
  const made = stackup(
    ...row.layers.map((layer, index) => {
      const um = layer.thickness * 1e6
      if (layer.kind === 'dielectric') return dielectric(`sheet ${index}`, um, layer.permittivity)
      if (layer.role === 'plane') return plane(`plane ${index}`, 'GND', um)
      return copper(`signal ${index}`, { thickness: layer.thickness })
    }),
  )
  const drilled = via('drilled', {
    lastLayer: coppers.length,
    drilledDiameter: 2 * row.barrelRadius,
    padDiameters: coppers.map(({ padRadius }) => 2 * (padRadius ?? 0)),
    antipadDiameter: 2 * opening,
    unconnectedInnerPads: pads.length === signals ? 'kept' : 'removed',
  })
  return { board: { ...base, stackup: made }, holes: [drilled], pads }
}

describe('vias of boards', () => {
  // reference/via/barrelCapacitance.json, finite elements; a pad at each end and on the layer that the net leaves on.
  const rows = barrelReferences().filter(
    ({ name }) => /pads at the ends and on \d+$/.test(name) && !/layers \d+ to|planes outside/.test(name),
  )

  it('are among the table', () => {
    expect(rows.length).toBeGreaterThanOrEqual(8)
  })

  it.each(rows)('have the capacitance of finite elements, and the parts it is split in: $name', (row) => {
    const { board, holes, pads } = boardOf(row)
    const exitLayer = pads[1] ?? NaN
    const line = lineOf(board, { holes, exitLayer })
    expect(Math.abs(line.capacitance / row.capacitance - 1)).toBeLessThan(0.0065)
    // The signal's part ends at the near face of the exit layer, between the cuts of the table above and below it.
    const upTo = (layer: number): number =>
      row.chargeByCopperLayer.slice(0, layer).reduce((sum, charge) => sum + charge, 0)
    const signal = line.capacitance - line.hanging.capacitance
    expect(signal).toBeGreaterThan(upTo(exitLayer - 1))
    expect(signal).toBeLessThan(upTo(exitLayer))
  })
})
