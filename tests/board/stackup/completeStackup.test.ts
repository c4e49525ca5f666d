import { describe, expect, it } from 'vitest'
import { EXAMPLE_TEXT, exampleBoard, readText } from '../exampleBoard.ts'
import { formatLength } from '../../../src/units/format.ts'
import type { Board } from '../../../src/board/board.ts'
import type { CopperLayer, DielectricLayer, Stackup } from '../../../src/board/stackup.ts'

/** The example board with another stackup and nothing that depends on layer names. */
function withLayers(layers: string, header = ''): string {
  const start = EXAMPLE_TEXT.indexOf('stackup:')
  const end = EXAMPLE_TEXT.indexOf('\nvias:')
  const lines = layers.trim().split('\n')
  const list = lines.map((line) => `    - ${line.trim()}`).join('\n')
  return `${EXAMPLE_TEXT.slice(0, start)}stackup:\n${header}  layers:\n${list}\n${EXAMPLE_TEXT.slice(end)}`
}

async function stackupOf(layers: string, header = ''): Promise<Board> {
  const { board, issues } = await readText(withLayers(layers, header))
  if (board === null) throw new Error(issues.map(({ message }) => message).join('\n'))
  return board
}

async function messagesOf(layers: string, header = ''): Promise<string[]> {
  const { issues } = await readText(withLayers(layers, header))
  return issues
    .filter(({ severity }) => severity === 'error')
    .map(({ path, message }) => `${path}: ${message}`)
}

function copper(stackup: Stackup, name: string): CopperLayer {
  const layer = stackup.copper.find((candidate) => candidate.name === name)
  if (layer === undefined) throw new Error(`no ${name}`)
  return layer
}

function dielectric(stackup: Stackup, name: string): DielectricLayer {
  const layer = stackup.layers.find((candidate) => candidate.name === name)
  if (layer?.kind !== 'dielectric') throw new Error(`no ${name}`)
  return layer
}

const FOUR = `
  {copper: L1, foil: 0.5 oz, plating: 25 um}
  {prepreg: p1, plies: [{style: "1080", count: 2, thickness: 75 um}], permittivity: 3.6, loss_tangent: 0.01, at: 1 GHz}
  {copper: L2, role: plane, net: GND, foil: 1 oz}
  {core: c1, thickness: 0.2 mm, permittivity: 3.7, loss_tangent: 0.01, at: 1 GHz}
  {copper: L3, role: signal, foil: 0.5 oz}
  {prepreg: p2, plies: [{style: "1080", count: 2, thickness: 75 um}], coverage: {above: 40 %}, permittivity: 3.6, loss_tangent: 0.01, at: 1 GHz}
  {copper: L4, foil: 0.5 oz, plating: 25 um}`

describe('a stackup', () => {
  it('numbers its copper from the top and knows inner from outer', async () => {
    const { stackup } = await exampleBoard()
    expect(stackup.copper.map(({ name, number, position }) => `${name} ${number} ${position}`)).toEqual([
      'L1 1 top',
      ...['L2 2', 'L3 3', 'L4 4', 'L5 5', 'L6 6', 'L7 7'].map((layer) => `${layer} inner`),
      'L8 8 bottom',
    ])
  })

  it('adds copper and dielectric up and leaves the mask out', async () => {
    const { stackup } = await exampleBoard()
    expect(stackup.computedThickness).toBeCloseTo(
      (2 * 40 + 4 * 15 + 2 * 30 + 2 * 75 + 2 * 100 + 2 * 150 + 200) * 1e-6,
      12,
    )
    expect(stackup.statedThickness).toBe(1e-3)
    expect(stackup.thicknessTolerance).toBeCloseTo(0.1, 12)
  })

  it('takes finished copper from foil and plating, and says how', async () => {
    const { stackup } = await stackupOf(FOUR)
    expect(copper(stackup, 'L1').thickness).toBeCloseTo(17.15e-6 + 25e-6 - 1e-6, 12)
    expect(copper(stackup, 'L1').thicknessBasis).toBe(
      `foil 0.017 mm plus plating 0.025 mm less ${formatLength(1e-6, 'mm')} by processing`,
    )
    expect(copper(stackup, 'L3').thickness).toBeCloseTo(17.15e-6 - 2e-6, 12)
    expect(copper(stackup, 'L3')).toMatchObject({ plating: 0, startingFoil: 17.15e-6 })
  })

  it('counts the resin of a prepreg once for each copper that stands in it', async () => {
    const { stackup } = await stackupOf(FOUR)
    // L1 is bonded to p1 itself, L2 to the core: only L2, a plane with 70 % copper assumed, is filled by p1.
    const filled = copper(stackup, 'L2').thickness * 0.3
    expect(dielectric(stackup, 'p1').thickness).toBeCloseTo(150e-6 - filled, 12)
    expect(dielectric(stackup, 'p2').thickness).toBeCloseTo(
      150e-6 - copper(stackup, 'L3').thickness * 0.6,
      12,
    )
    expect(dielectric(stackup, 'c1').thickness).toBe(0.2e-3)
    expect(dielectric(stackup, 'p1').thicknessBasis).toBe(
      '2 × 1080 (0.075 mm), less 0.0094 mm of resin that fills the copper',
    )
  })

  it('bonds copper to its core, and foil on prepreg towards the centre', async () => {
    const { stackup } = await stackupOf(`
      {copper: L1, foil: 0.5 oz}
      {prepreg: p1, thickness: 60 um}
      {copper: L2, role: plane, foil: 0.5 oz}
      {prepreg: p2, thickness: 60 um}
      {copper: L3, foil: 0.5 oz}
      {core: c1, thickness: 300 um}
      {copper: L4, foil: 0.5 oz}
      {prepreg: p3, thickness: 60 um}
      {copper: L5, role: plane, foil: 0.5 oz}
      {prepreg: p4, thickness: 60 um}
      {copper: L6, foil: 0.5 oz}`)
    expect(stackup.copper.map(({ bondedTo }) => bondedTo)).toEqual([
      'below',
      'below',
      'below',
      'above',
      'above',
      'above',
    ])
    const assumed = (name: string): string[] => copper(stackup, name).assumed.map(({ path }) => path)
    expect(assumed('L2')).toContain('stackup.layers[2].bonded_to')
    expect(assumed('L3')).not.toContain('stackup.layers[4].bonded_to')
  })

  it('lets the description bond foil to the other side, where there is no core to contradict it', async () => {
    const { stackup } = await stackupOf(`
      {copper: L1, foil: 0.5 oz}
      {prepreg: p1, thickness: 60 um}
      {copper: L2, role: plane, foil: 0.5 oz, bonded_to: above}
      {prepreg: p2, thickness: 60 um}
      {copper: L3, foil: 0.5 oz}
      {core: c1, thickness: 300 um}
      {copper: L4, foil: 0.5 oz}`)
    expect(copper(stackup, 'L2').bondedTo).toBe('above')
  })

  it('reads a side wall as angle or as etch factor, which is thickness over undercut', async () => {
    const angled = await exampleBoard([['sidewall: 70 deg', 'sidewall: 60 deg']])
    expect(copper(angled.stackup, 'L3').sidewallSlope).toBeCloseTo(1 / Math.sqrt(3), 12)
    const etched = await exampleBoard([['sidewall: 70 deg', 'etch_factor: 2.5']])
    expect(copper(etched.stackup, 'L3').sidewallSlope).toBeCloseTo(0.4, 12)
    const square = await exampleBoard([['sidewall: 70 deg', 'sidewall: 90 deg']])
    expect(copper(square.stackup, 'L3').sidewallSlope).toBe(0)
  })

  // "2 t / tan 70 = 0.73 t, about 0.5 mil at 17 um and 1 mil at 35 um": half the last printed digit.
  it('narrows a trace by 0.73 of its thickness where the side wall is not given', async () => {
    const { stackup } = await stackupOf(FOUR)
    expect(Math.abs(2 * copper(stackup, 'L3').sidewallSlope - 0.73)).toBeLessThanOrEqual(0.005)
  })

  it('takes a net as the sign of a plane, and no net as that of a signal layer', async () => {
    const { stackup } = await stackupOf(
      FOUR.replace('role: plane, net: GND', 'net: GND').replace('role: signal, ', ''),
    )
    expect(copper(stackup, 'L2')).toMatchObject({ role: 'plane', planeNet: 'GND' })
    expect(copper(stackup, 'L3')).toMatchObject({ role: 'signal', planeNet: null })
    expect(copper(stackup, 'L3').assumed.map(({ path }) => path)).toContain('stackup.layers[4].role')
  })

  it('fills in permittivity by product, by glass, or as ordinary FR-4, and says whence', async () => {
    const { stackup } = await stackupOf(`
      {copper: L1, foil: 0.5 oz}
      {prepreg: p1, thickness: 75 um, material: Isola 370HR 1080}
      {copper: L2, role: plane, foil: 0.5 oz}
      {core: c1, thickness: 200 um, material: ordinary 7628}
      {copper: L3, foil: 0.5 oz}
      {prepreg: p2, plies: [{style: "2116"}]}
      {copper: L4, foil: 0.5 oz}
      {core: c2, thickness: 200 um}
      {copper: L5, foil: 0.5 oz}`)
    const values = ['p1', 'c1', 'p2', 'c2'].map((name) => dielectric(stackup, name).permittivity.relative)
    expect(values).toEqual([4.04, 4.5, 4.2, 4.2])
    const p1 = dielectric(stackup, 'p1').assumed.find(({ path }) => path === 'stackup.layers[1].permittivity')
    expect(p1).toMatchObject({ value: '4.04', quantity: 'relative permittivity of p1' })
    expect(p1?.source).toContain('Isola')
    expect(dielectric(stackup, 'p2').plies).toEqual([{ style: '2116', count: 1, thickness: 4.8 * 25.4e-6 }])
  })

  // IPC-4101 class B as a laminate maker lists it: 4 mil ± 0.7, 6 ± 1.0, 7.5 ± 1.5, 10 ± 1.5. Half the last digit.
  it.each([
    ['4 mil', 0.7],
    ['6 mil', 1.0],
    ['7.5 mil', 1.5],
    ['10 mil', 1.5],
  ])('gives a core of %s a tolerance of %s mil', async (thickness, plusMinus) => {
    const { stackup } = await stackupOf(FOUR.replace('thickness: 0.2 mm', `thickness: ${thickness}`))
    const core = dielectric(stackup, 'c1')
    expect(Math.abs((core.thickness * core.thicknessTolerance) / 25.4e-6 - plusMinus)).toBeLessThanOrEqual(
      0.05,
    )
  })

  it('gives mask the thickness of a published table where it has none: 0.8 mil and 0.5 mil, 3.8', async () => {
    const { stackup } = await stackupOf(`{mask: top}\n${FOUR.trim()}\n{mask: bottom}`)
    const mask = stackup.layers[0]
    expect(mask).toMatchObject({ kind: 'mask', side: 'top', thicknessOverTrace: 0.5 * 25.4e-6 })
    expect(mask).toMatchObject({ thicknessOverLaminate: 0.8 * 25.4e-6, permittivity: { relative: 3.8 } })
    expect(stackup.layers.at(-1)).toMatchObject({ kind: 'mask', side: 'bottom' })
  })

  it('lists every value it filled in, both at the layer and at the board', async () => {
    const board = await stackupOf(FOUR)
    const paths = board.assumptions.map(({ path }) => path)
    for (const layer of board.stackup.layers) {
      for (const { path } of layer.assumed) expect(paths).toContain(path)
    }
    expect(paths).toContain('stackup.layers[0].sidewall')
    expect(paths).toContain('stackup.copper_resistivity')
  })

  it('assumes nothing that the description says', async () => {
    const board = await exampleBoard()
    expect(board.assumptions.filter(({ path }) => path.startsWith('stackup.layers'))).toEqual([])
  })
})

describe('a stackup that is none', () => {
  it.each([
    ['two coppers that touch', FOUR.replace(/ {2}\{core.*\n/, ''), 'have no dielectric between them'],
    ['dielectric outside', `${FOUR}\n{prepreg: p3, thickness: 60 um}`, 'must begin and end with copper'],
    [
      'two dielectrics that touch',
      FOUR.replace('  {copper: L3', '  {prepreg: p9, thickness: 60 um}\n  {copper: L3'),
      'no copper between c1 and p9',
    ],
    [
      'copper between two cores',
      FOUR.replaceAll(
        'prepreg: p2, plies: [{style: "1080", count: 2, thickness: 75 um}], coverage: {above: 40 %}',
        'core: p2, thickness: 100 um',
      ),
      'cores are joined by prepreg',
    ],
    [
      'mask inside',
      FOUR.replace('  {core', '  {mask: m}\n  {core'),
      'mask lies only on the very top and bottom',
    ],
    ['a name for two layers', FOUR.replace('copper: L3', 'copper: L2'), 'called "L2"'],
    ['no plane', FOUR.replace('role: plane, net: GND, ', ''), 'has no plane'],
    [
      'a bond against the core',
      FOUR.replace('copper: L3, ', 'copper: L3, bonded_to: below, '),
      'cannot be bonded to the dielectric below',
    ],
    [
      'a bond to nothing',
      FOUR.replace('copper: L1, ', 'copper: L1, bonded_to: above, '),
      'nothing lies above it',
    ],
    [
      'angle and etch factor',
      FOUR.replace('copper: L3, ', 'copper: L3, sidewall: 70 deg, etch_factor: 2, '),
      'give one',
    ],
    ['dielectric without thickness', FOUR.replace('thickness: 0.2 mm, ', ''), 'neither thickness nor plies'],
    [
      'an unknown glass without thickness',
      FOUR.replace('{style: "1080", count: 2, thickness: 75 um}', '{style: "1O80"}'),
      'did you mean "1080"?',
    ],
    [
      'prepreg that copper swallows',
      FOUR.replace('count: 2, thickness: 75 um', 'count: 1, thickness: 5 um'),
      'Nothing of p1 is left',
    ],
    ['a negative thickness', FOUR.replace('thickness: 0.2 mm', 'thickness: -0.2 mm'), 'above zero'],
    ['a thickness of zero', FOUR.replace('thickness: 0.2 mm', 'thickness: 0 mm'), 'above zero'],
    [
      'a thickness in metres for micrometres',
      FOUR.replace('thickness: 0.2 mm', 'thickness: 200 m'),
      'at most 1 m',
    ],
  ])('is refused: %s', async (_, layers, message) => {
    const found = await messagesOf(layers)
    expect(found.length).toBeGreaterThanOrEqual(1)
    expect(found.join('\n')).toContain(message)
  })

  it('says one thing about one fault', async () => {
    expect(await messagesOf(FOUR.replace('thickness: 0.2 mm', 'thickness: 0 mm'))).toHaveLength(1)
    expect(await messagesOf(FOUR.replace('role: plane, net: GND, ', ''))).toHaveLength(1)
  })

  it('finds a missing plane even beside a layer with another fault', async () => {
    const layers = FOUR.replace('role: plane, net: GND, ', '').replace('thickness: 0.2 mm', 'thickness: 0 mm')
    expect(await messagesOf(layers)).toHaveLength(2)
  })
})
