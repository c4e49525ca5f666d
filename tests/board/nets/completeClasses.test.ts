import { describe, expect, it } from 'vitest'
import { INTERFACE_NAMES, interfacePreset, structuresOf } from '../../../src/board/nets/interfaces.ts'
import type { NetClass } from '../../../src/board/nets.ts'
import { exampleBoard, exampleText, readText } from '../exampleBoard.ts'

const CLASSES = exampleText().slice(exampleText().indexOf('\nclasses:'), exampleText().indexOf('\nclaims:'))

async function classWith(keys: string): Promise<NetClass> {
  const board = await exampleBoard([[CLASSES, `\nclasses:\n  - {name: one, ${keys}}\n`]])
  const [first] = board.classes
  if (first === undefined) throw new Error('no class')
  return first
}

async function problemsOf(keys: string): Promise<string[]> {
  const { issues } = await readText(exampleText([[CLASSES, `\nclasses:\n  - {name: one, ${keys}}\n`]]))
  return issues.map(({ path, message }) => `${path}: ${message}`)
}

const assumed = (netClass: NetClass): string[] =>
  netClass.assumed.map(({ path }) => path.replace('classes[0].', ''))

describe('presets of interfaces', () => {
  it.each(INTERFACE_NAMES)('%s has target, tolerance, an edge or a rate, and a source for each', (name) => {
    expect(structuresOf(name).length).toBeGreaterThan(0)
    for (const structure of structuresOf(name)) {
      const preset = interfacePreset(name, structure)
      const given = Object.entries(preset?.values ?? {}).filter(
        ([key]) => !['name', 'structure'].includes(key),
      )
      const values = Object.fromEntries(given)
      expect(Object.keys(values)).toEqual(expect.arrayContaining(['target', 'tolerance']))
      expect('edge' in values || 'data_rate' in values).toBe(true)
      expect(Object.keys(values).filter((key) => preset?.sources[key] === undefined)).toEqual([])
      expect(preset?.sources['neck_allowance']).toBeDefined()
      expect(preset?.values.neck_allowance === undefined).toBe(
        preset?.sources['neck_allowance'] === 'none found',
      )
    }
  })

  // AMD UG863: DDR4 50 and 90 ohm, DDR5 40 and 75 ohm, all ± 10 %.
  it.each([
    ['ddr4', 'single', 50],
    ['ddr4', 'pair', 90],
    ['ddr5', 'single', 40],
    ['ddr5', 'pair', 75],
  ] as const)('%s, %s: %s ohm', (name, structure, target) => {
    expect(interfacePreset(name, structure)?.values).toMatchObject({ target, tolerance: 0.1 })
  })

  it('know no interface or structure that has no table', () => {
    expect(interfacePreset('ddr9', 'single')).toBeNull()
    expect(interfacePreset('pcie-gen3', 'single')).toBeNull()
  })
})

describe('a class', () => {
  it('takes what it says, and assumes only what it does not', async () => {
    const { classes } = await exampleBoard()
    expect(classes[0]).toMatchObject({
      structure: 'single',
      target: 50,
      tolerance: 0.1,
      sourceImpedance: 40,
      loadImpedance: 48,
    })
    // Quantiles of the normal distribution at 0.9 and 0.8: NIST/SEMATECH e-Handbook, 1.3.6.7.1.
    expect(classes[0]?.edge.riseTime).toBeCloseTo((60e-12 * 1.2815515655446) / 0.8416212335729, 18)
    expect(classes[0]?.assumed).toEqual([])
    expect(classes[1]).toMatchObject({
      neck: { width: null, gap: 90e-6 },
      main: { width: null, gap: 120e-6 },
    })
  })

  it('takes the rest from its interface, each value noted with its source', async () => {
    const one = await classWith('interface: ddr4, target: 40 ohm')
    expect(one).toMatchObject({ target: 40, tolerance: 0.1, interface: 'ddr4', structure: 'single' })
    expect(one.neckAllowance).toMatchObject({ length: 25.4e-3 })
    expect(one.neckAllowance?.source).toContain('Altera 821801')
    expect(assumed(one)).toEqual(
      expect.arrayContaining(['tolerance', 'edge', 'data_rate', 'source_impedance']),
    )
    expect(assumed(one)).not.toContain('target')
    expect(one.assumed.find(({ path }) => path === 'classes[0].edge')?.source).toContain('from memory')
  })

  it('is a pair where its interface knows only pairs', async () => {
    const one = await classWith('interface: pcie-gen4')
    expect(one).toMatchObject({ structure: 'pair', target: 85 })
    expect(one.dataRate).toEqual({ bitRate: 16e9, levels: 2, nyquist: 8e9 })
    expect(one.edge.basis).toBe('18.8 ps, 20–80 %, Gaussian, from 16 Gb/s')
    expect(one.main.gap).toBeCloseTo(3 * 25.4e-6, 12)
    expect(assumed(one)).toContain('main.gap')
  })

  it('takes its edge from a stated rate before that of the interface', async () => {
    const one = await classWith('interface: ddr4, data_rate: 1.6 GBd')
    expect(one.edge.basis).toContain('from 1.6 Gb/s')
    expect(one.dataRate?.nyquist).toBe(0.8e9)
  })

  it('reads rates with levels', async () => {
    const one = await classWith('target: 90 ohm, structure: pair, data_rate: {rate: 64 Gb/s, levels: 4}')
    expect(one.dataRate).toEqual({ bitRate: 64e9, levels: 4, nyquist: 16e9 })
    expect(one.edge.basis).toContain('from 32 GBd')
  })

  it('is slow where neither edge nor rate is known, and says so', async () => {
    const one = await classWith('target: 50 ohm')
    expect(one.edge).toMatchObject({ riseTime: 1e-9, shape: 'gaussian' })
    expect(assumed(one)).toEqual(
      expect.arrayContaining(['structure', 'tolerance', 'edge', 'source_impedance', 'load_impedance']),
    )
  })

  it('gives a pair the gap of its neck where the main route has none', async () => {
    const one = await classWith('interface: lvds, neck: {gap: 95 um}')
    expect(one.main.gap).toBe(95e-6)
  })

  it.each([
    [
      'no target',
      'structure: single',
      'classes[0].target: Class one has neither a target impedance nor an interface',
    ],
    [
      'an unknown interface',
      'interface: ddr44',
      'classes[0].interface: Unknown interface "ddr44" of class one',
    ],
    [
      'a structure its interface lacks',
      'interface: pcie-gen3, structure: single',
      'Interface pcie-gen3 has no values for structure single, only for pair',
    ],
    [
      'an edge between odd levels',
      'target: 50 ohm, edge: {rise: 1 ns, between: 30-70}',
      'classes[0].edge.between: classes[0].edge.between is "30-70"; allowed: 10-90 or 20-80',
    ],
    ['a rate that is none', 'target: 50 ohm, data_rate: 3 GHz', 'a bit rate such as 3.2 Gb/s'],
    [
      'an allowance without a source',
      'target: 50 ohm, neck_allowance: {length: 10 mm}',
      'classes[0].neck_allowance.source: classes[0].neck_allowance.source is missing',
    ],
    [
      'a negative target',
      'target: -50 ohm',
      'classes[0].target: classes[0].target is -50 ohm; allowed: an impedance above zero',
    ],
  ])('is refused with %s', async (_, keys, message) => {
    const found = await problemsOf(keys)
    expect(found).toHaveLength(1)
    expect(found[0]).toContain(message)
  })
})
