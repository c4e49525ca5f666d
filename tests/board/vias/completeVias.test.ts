import { describe, expect, it } from 'vitest'
import { exampleBoard, exampleText, readText } from '../exampleBoard.ts'
import type { ViaType } from '../../../src/board/vias.ts'

const VIA =
  '  - {name: through via, kind: through, drilled: 0.2 mm, plating: 25 um, pad: 0.42 mm, antipad: 0.65 mm, unconnected_inner_pads: removed, in_pad: false, filled: false, capped: false}'

/** The example board with another first via, and more after it. */
async function viaOf(via: string, ...more: string[]): Promise<ViaType> {
  const list = [via, ...more].map((line) => `  - ${line}`).join('\n')
  const board = await exampleBoard([[VIA, list]])
  const [first] = board.vias
  if (first === undefined) throw new Error('no via')
  return first
}

async function problemsOf(via: string, ...more: string[]): Promise<string[]> {
  const list = [via, ...more].map((line) => `  - ${line}`).join('\n')
  const { issues } = await readText(exampleText([[VIA, list]]))
  return issues.map(({ severity, path, line, message }) => `${severity} ${path} ${String(line)}: ${message}`)
}

const NAME = 'name: through via, kind: through'

describe('a via', () => {
  it('goes from top to bottom where a through via names no layers', async () => {
    expect(await viaOf(`{${NAME}, drilled: 0.2 mm, pad: 0.42 mm}`)).toMatchObject({
      firstLayer: 1,
      lastLayer: 8,
    })
  })

  it('takes layers by name or number, in either order', async () => {
    const via = await viaOf('{name: through via, kind: through, layers: [8, L1], drilled: 0.2 mm}')
    expect(via).toMatchObject({ firstLayer: 1, lastLayer: 8 })
  })

  it('finds the finished hole from the drilled one and the other way round', async () => {
    const drilled = await viaOf(`{${NAME}, drilled: 0.2 mm, plating: 20 um}`)
    expect(drilled.finishedDiameter).toBeCloseTo(0.16e-3, 12)
    expect(drilled.stated).toBe('drilled')
    const finished = await viaOf(`{${NAME}, finished: 0.15 mm}`)
    expect(finished.drilledDiameter).toBeCloseTo(0.2e-3, 12)
    expect(finished.stated).toBe('finished')
    expect(finished.assumed.find(({ path }) => path === 'vias[0].plating')?.value).toBe('0.025 mm')
    expect((await viaOf(`{${NAME}, finished: 0.15 mm, drilled: 0.25 mm}`)).stated).toBe('both')
  })

  it('has pads by layer, else outer or inner', async () => {
    const via = await viaOf(`{${NAME}, drilled: 0.2 mm, pad: {outer: 0.45 mm, inner: 0.42 mm, L3: 0.40 mm}}`)
    expect(via.padDiameters).toEqual([0.45e-3, 0.42e-3, 0.4e-3, 0.42e-3, 0.42e-3, 0.42e-3, 0.42e-3, 0.45e-3])
  })

  // Rush PCB, advanced class: pad 8 mil and antipad 16 mil over the drill.
  it('gets pad and antipad from the capability class where it has none', async () => {
    const via = await viaOf(`{${NAME}, drilled: 8 mil}`)
    expect(via.padDiameters[0]).toBeCloseTo(16 * 25.4e-6, 12)
    expect(via.antipadDiameter).toBeCloseTo(24 * 25.4e-6, 12)
    expect(via.assumed.map(({ path }) => path)).toEqual(
      expect.arrayContaining([
        'vias[0].pad',
        'vias[0].antipad',
        'vias[0].plating',
        'vias[0].unconnected_inner_pads',
      ]),
    )
  })

  it('keeps the clearance of its class round a pad that is larger than the class needs', async () => {
    const via = await viaOf(`{${NAME}, drilled: 8 mil, pad: 20 mil}`)
    expect(via.antipadDiameter).toBeCloseTo(28 * 25.4e-6, 12)
  })

  it('is filled and capped where it stands in a land', async () => {
    expect(await viaOf(`{${NAME}, drilled: 0.2 mm, in_pad: true}`)).toMatchObject({
      filled: true,
      capped: true,
    })
    expect(await viaOf(`{${NAME}, drilled: 0.2 mm}`)).toMatchObject({
      inPad: false,
      filled: false,
      capped: false,
    })
  })

  it('is drilled back as described, the rest assumed', async () => {
    const via = await viaOf(`{${NAME}, drilled: 0.2 mm, backdrill: {diameter: 0.45 mm}}`)
    expect(via.backdrill).toEqual({ diameter: 0.45e-3, from: 'bottom', residualStub: 0.2e-3 })
    expect(via.assumed.map(({ path }) => path)).toContain('vias[0].backdrill.residual_stub')
    expect((await viaOf(`{${NAME}, drilled: 0.2 mm}`)).backdrill).toBeNull()
  })

  it('may be a filled hole that plating closes', async () => {
    const micro = '{name: m, kind: microvia, layers: [L1, L2], drilled: 0.02 mm, pad: 0.2 mm, filled: true}'
    const via = await viaOf(micro, `{${NAME}, drilled: 0.2 mm}`)
    expect(via).toMatchObject({ finishedDiameter: 0, arrangement: 'staggered' })
  })
})

describe('a via that is none', () => {
  it.each([
    [
      'has a pad smaller than its hole',
      `{${NAME}, drilled: 0.2 mm, pad: 0.18 mm}`,
      'vias[0].pad',
      'on L1, 0.180 mm, is not larger than its drilled hole, 0.200 mm',
    ],
    [
      'has one pad smaller than its hole',
      `{${NAME}, drilled: 0.2 mm, pad: {outer: 0.4 mm, inner: 0.4 mm, L3: 0.2 mm}}`,
      'vias[0].pad',
      'on L3',
    ],
    [
      'has an antipad smaller than its hole',
      `{${NAME}, drilled: 0.2 mm, antipad: 0.2 mm, unconnected_inner_pads: removed}`,
      'vias[0].antipad',
      'its drilled hole, 0.200 mm: planes would be shorted',
    ],
    [
      'has an antipad smaller than pads that are kept',
      `{${NAME}, drilled: 0.2 mm, pad: 0.42 mm, antipad: 0.4 mm}`,
      'vias[0].antipad',
      'the pads kept on the layers it passes, 0.420 mm',
    ],
    ['has no hole', `{${NAME}, pad: 0.4 mm}`, 'vias[0].drilled', 'neither the drilled nor the finished'],
    [
      'is finished larger than drilled',
      `{${NAME}, drilled: 0.2 mm, finished: 0.25 mm}`,
      'vias[0].finished',
      'plating makes a hole smaller',
    ],
    [
      'contradicts its plating',
      `{${NAME}, drilled: 0.25 mm, finished: 0.15 mm, plating: 20 um}`,
      'vias[0].plating',
      'do not agree',
    ],
    [
      'is closed by its plating',
      `{${NAME}, drilled: 0.1 mm, plating: 50 um}`,
      'vias[0].plating',
      'closes the hole',
    ],
    [
      'is blind on no side',
      '{name: through via, kind: blind, layers: [L2, L4], drilled: 0.2 mm}',
      'vias[0].layers',
      'a blind via has one end',
    ],
    [
      'is buried at the surface',
      '{name: through via, kind: buried, layers: [L1, L4], drilled: 0.2 mm}',
      'vias[0].layers',
      'ends on inner layers',
    ],
    [
      'is through only half the board',
      '{name: through via, kind: through, layers: [L1, L4], drilled: 0.2 mm}',
      'vias[0].layers',
      'from the top layer to the bottom',
    ],
    [
      'joins a layer with itself',
      '{name: through via, kind: buried, layers: [L4, 4], drilled: 0.2 mm}',
      'vias[0].layers',
      'two different layers',
    ],
    [
      'is blind from nowhere',
      '{name: through via, kind: blind, drilled: 0.2 mm}',
      'vias[0].layers',
      'must say from which layer',
    ],
    [
      'names an unknown layer',
      '{name: through via, kind: blind, layers: [L1, L13], drilled: 0.2 mm}',
      'vias[0].layers[1]',
      'Unknown layer L13; the stackup has L1 … L8',
    ],
    [
      'has a pad on an unknown layer',
      `{${NAME}, drilled: 0.2 mm, pad: {outer: 0.4 mm, L9: 0.4 mm}}`,
      'vias[0].pad.L9',
      'Unknown layer L9',
    ],
    [
      'is a microvia through three dielectrics at once',
      '{name: through via, kind: microvia, layers: [L1, L4], drilled: 0.1 mm}',
      'vias[0].layers',
      'say arrangement',
    ],
    [
      'is stacked but no microvia',
      `{${NAME}, drilled: 0.2 mm, arrangement: stacked}`,
      'vias[0].arrangement',
      'only microvias',
    ],
    [
      'is a microvia drilled back',
      '{name: through via, kind: microvia, layers: [L1, L2], drilled: 0.1 mm, backdrill: {from: top}}',
      'vias[0].backdrill',
      'no stub',
    ],
    [
      'is drilled back with its own drill',
      `{${NAME}, drilled: 0.2 mm, backdrill: {diameter: 0.2 mm}}`,
      'vias[0].backdrill.diameter',
      'not larger than the hole',
    ],
  ])('%s', async (_, via, path, message) => {
    const errors = (await problemsOf(via)).filter((problem) => problem.startsWith('error'))
    expect(errors).toHaveLength(1)
    expect(errors[0]).toContain(`error ${path} 28: `)
    expect(errors[0]).toContain(message)
  })

  it('is called like another', async () => {
    const [problem = ''] = await problemsOf(`{${NAME}, drilled: 0.2 mm}`, `{${NAME}, drilled: 0.3 mm}`)
    expect(problem).toContain('Two vias are called "through via"')
  })
})

describe('spans that no order of lamination builds', () => {
  const through = `{${NAME}, drilled: 0.2 mm}`

  it('are refused with the core that is in the way', async () => {
    const [problem = ''] = await problemsOf(
      through,
      '{name: b, kind: blind, layers: [L1, L2], drilled: 0.2 mm}',
    )
    expect(problem).toContain('error vias[1].layers 29: Via "b" from L1 to L2 cannot be built')
    expect(problem).toContain('L2 is the upper face of a core whose lower face is L3')
  })

  it('are refused in pairs that cross', async () => {
    const problems = await problemsOf(
      through,
      '{name: b, kind: blind, layers: [L1, L5], drilled: 0.2 mm}',
      '{name: c, kind: blind, layers: [L4, L8], drilled: 0.2 mm}',
    )
    expect(problems).toHaveLength(1)
    expect(problems[0]).toContain('"c" from L4 to L8 and via "b" from L1 to L5 cannot both be built')
    expect(problems[0]).toContain('they share L4, L5')
  })

  it('are accepted where one lies within the other or they lie apart', async () => {
    expect(
      await problemsOf(
        through,
        '{name: b, kind: blind, layers: [L1, L5], drilled: 0.2 mm}',
        '{name: c, kind: blind, layers: [L6, L8], drilled: 0.2 mm}',
        '{name: d, kind: buried, layers: [L2, L3], drilled: 0.2 mm}',
      ),
    ).toEqual([])
    expect(
      await problemsOf(
        through,
        '{name: b, kind: buried, layers: [L2, L5], drilled: 0.2 mm}',
        '{name: d, kind: buried, layers: [L2, L3], drilled: 0.2 mm}',
      ),
    ).toEqual([])
  })

  it('are not a ladder of microvias, and one hole through two dielectrics is warned of', async () => {
    const start = '{name: m, kind: microvia, layers: [L1, L3], drilled: 0.1 mm, pad: 0.3 mm'
    expect(await problemsOf(through, `${start}, arrangement: stacked}`)).toEqual([])
    const warned = await problemsOf(through, `${start}}`)
    expect(warned).toEqual([
      expect.stringMatching(/^warning vias\[1\]\.layers 29: Microvia "m" skips a layer/),
    ])
  })
})
