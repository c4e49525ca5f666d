import { describe, expect, it } from 'vitest'
import { classOf, netOf } from '../../../src/board/lookup.ts'
import { exampleBoard, exampleText, readText } from '../exampleBoard.ts'

const NETS = exampleText().slice(exampleText().indexOf('\nnets:'), exampleText().indexOf('\nclaims:'))

const withNets = (...entries: string[]): [string, string] => [
  NETS,
  `\nnets:\n${entries.map((entry) => `  - ${entry}`).join('\n')}\n`,
]

async function problemsOf(changes: readonly (readonly [string, string])[]): Promise<string[]> {
  const { issues } = await readText(exampleText(changes))
  return issues.map(({ severity, path, message }) => `${severity} ${path}: ${message}`)
}

describe('nets', () => {
  it('are the signals of the ball maps, with their balls', async () => {
    const board = await exampleBoard()
    const bytes = ['DQ0', 'DQ1', 'DQ2', 'DQ3', 'DQ4', 'DQ5', 'DQ6', 'DQ7', 'DQS_P', 'DQS_N']
    expect(board.nets.map(({ name }) => name)).toEqual([...bytes, 'TX0_P', 'RESET', 'TX0_N'])
    expect(netOf(board, 'DQ0').pins).toEqual([{ package: 'U1', ball: 'A1' }])
  })

  it('join the balls of two packages', async () => {
    const second =
      '  - {name: U2, grid: {rows: 2, columns: 2, pitch: 1 mm}, nets: {A1: DQ0, B2: OTHER}}\n\nclasses:'
    const board = await exampleBoard([['\nclasses:', second]])
    expect(netOf(board, 'DQ0').pins).toEqual([
      { package: 'U1', ball: 'A1' },
      { package: 'U2', ball: 'A1' },
    ])
    expect(netOf(board, 'OTHER').class).toBe('unclassified')
  })

  it('take what entries say in order, the last word on each thing', async () => {
    const board = await exampleBoard([
      withNets(
        '{match: "DQ*", class: data, group: byte 0, length: 40 mm}',
        '{name: DQ3, length: 44 mm, package_delay: 30 ps, exit_layer: L3}',
        '{match: "DQS_?", class: strobe}',
      ),
    ])
    expect(netOf(board, 'DQ3')).toMatchObject({
      class: 'data',
      matchGroup: 'byte 0',
      mainLength: 44e-3,
      exitLayer: 3,
    })
    expect(netOf(board, 'DQ3').packageDelay).toBeCloseTo(30e-12, 18)
    expect(netOf(board, 'DQ2')).toMatchObject({ mainLength: 40e-3, exitLayer: null, packageDelay: null })
    expect(netOf(board, 'DQS_P')).toMatchObject({ class: 'strobe', matchGroup: 'byte 0' })
  })

  it('without a class are unclassified: 50 ohm, slow, and said to be assumed', async () => {
    const board = await exampleBoard()
    const reset = netOf(board, 'RESET')
    expect(reset.class).toBe('unclassified')
    expect(classOf(board, reset)).toMatchObject({
      structure: 'single',
      target: 50,
      tolerance: 0.1,
      edge: { riseTime: 1e-9 },
    })
    expect(board.assumptions.map(({ path, value }) => `${path} ${value}`)).toContain('nets unclassified')
  })

  it('have no class called unclassified where every net has its own', async () => {
    const board = await exampleBoard([withNets('{match: "*", class: data}')])
    expect(board.classes.map(({ name }) => name)).toEqual(['data', 'strobe', 'serial'])
  })

  it('of pair classes have partners, found by name or stated, and the way is shown', async () => {
    const board = await exampleBoard([
      ['C1: TX0_P', 'C1: ONE'],
      ['D1: TX0_N', 'D1: OTHER'],
      withNets(
        '{match: "DQS_*", class: strobe}',
        '{name: ONE, class: serial, partner: OTHER}',
        '{name: OTHER, class: serial}',
      ),
    ])
    expect(netOf(board, 'DQS_P')).toMatchObject({
      partner: 'DQS_N',
      partnerBasis: 'by name: _P / _N at the end',
      polarity: 'positive',
    })
    expect(netOf(board, 'ONE')).toMatchObject({
      partner: 'OTHER',
      partnerBasis: 'stated',
      polarity: 'positive',
    })
    expect(netOf(board, 'OTHER')).toMatchObject({
      partner: 'ONE',
      partnerBasis: 'stated',
      polarity: 'negative',
    })
    expect(netOf(board, 'DQ0')).toMatchObject({ partner: null, partnerBasis: null, polarity: null })
  })

  it.each([
    [
      'a name that no ball has',
      [withNets('{name: DQ9, class: data}')],
      'error nets[0].name: No ball has the net DQ9; did you mean "DQ0"?',
    ],
    [
      'a supply',
      [withNets('{name: VDD, class: data}')],
      'error nets[0].name: Net VDD is power or ground by the ball map of U1',
    ],
    [
      'an unknown class',
      [withNets('{match: "DQ?", class: dat}')],
      'error nets[0].class: Unknown class "dat"; the description has data, strobe, serial; did you mean "data"?',
    ],
    [
      'an unknown layer',
      [withNets('{match: "DQ?", class: data, exit_layer: 9}')],
      'error nets[0].exit_layer: Unknown layer 9; the stackup has L1 … L8',
    ],
    [
      'a plane to leave on',
      [withNets('{match: "DQ?", class: data, exit_layer: L2}')],
      'error nets[0].exit_layer: Layer L2 is a plane and carries no traces; signal layers are L1, L3, L6, L8',
    ],
    [
      'match and name',
      [withNets('{match: "DQ?", name: DQ0, class: data}')],
      'error nets[0]: An entry of nets names its nets by match or by name; nets[0] has both',
    ],
    ['neither match nor name', [withNets('{class: data}')], 'nets[0] has neither'],
    [
      'match misspelt',
      [withNets('{mach: "DQ?", class: data}')],
      'error nets[0].mach: There is no key "mach"',
    ],
    [
      'a pattern that fits nothing',
      [withNets('{match: "XY*", class: data}')],
      'warning nets[0].match: The pattern "XY*" fits no signal net',
    ],
    [
      'a pair without partner',
      [['D1: TX0_N', 'D1: TX1_N']],
      'error nets[2].class: Net TX0_P is in the pair class "serial" but has no partner',
    ],
    [
      'a partner in another class',
      [withNets('{name: TX0_P, class: serial}', '{name: TX0_N, class: strobe}')],
      'Nets TX0_P and TX0_N are a pair, but the first is in class "serial" and the other in "strobe"',
    ],
    [
      'a partner that no ball has',
      [withNets('{name: TX0_P, class: serial, partner: TXO_N}', '{name: TX0_N, class: serial}')],
      'error nets[0].partner: The partner of TX0_P is given as TXO_N, but no ball has that net; did you mean "TX0_N"?',
    ],
    [
      'itself as a partner',
      [withNets('{name: TX0_P, class: serial, partner: TX0_P}', '{name: TX0_N, class: serial}')],
      'Net TX0_P is given as its own partner',
    ],
    [
      'a partner in a class of single traces',
      [withNets('{name: DQ0, class: data, partner: DQ1}')],
      'warning nets[0].partner: Net DQ0 has a partner, but its class "data" is not of structure pair',
    ],
  ] as [string, [string, string][], string][])(
    'are refused, or warned of, with %s',
    async (_, changes, message) => {
      const found = await problemsOf(changes)
      expect(found.join('\n')).toContain(message)
      expect(found.length).toBeLessThanOrEqual(2)
    },
  )

  it('are supplies everywhere when one package says so', async () => {
    const second =
      '  - {name: U2, grid: {rows: 2, columns: 2, pitch: 1 mm}, power: [RESET], ground: [], nets: {A1: RESET}}\n\nclasses:'
    const board = await exampleBoard([['\nclasses:', second]])
    expect(board.nets.map(({ name }) => name)).not.toContain('RESET')
  })

  it('are refused where partners do not name each other', async () => {
    const found = await problemsOf([
      withNets(
        '{match: "TX0_?", class: serial}',
        '{match: "DQS_?", class: strobe}',
        '{name: TX0_P, partner: TX0_N}',
        '{name: TX0_N, partner: DQS_N}',
      ),
    ])
    expect(found.join('\n')).toContain('Net TX0_P has the partner TX0_N, whose own partner is DQS_N')
  })
})
